/** What grouping saved against each habit: over the day, this week, this month. */
import type { DaySummary, SavedSpans } from "../../api/contract/closed-day.ts";
import { gas, money } from "../parts/figures.ts";
import { Table } from "../parts/table.tsx";
import { words } from "../shell/words-en.ts";

interface SavedParts {
  readonly ofDay: DaySummary["saved"];
  /** Null: of a day that is over, where only the day itself counts. */
  readonly spans: SavedSpans | null;
  readonly currency: string;
}

export function Saved({ ofDay, spans, currency }: SavedParts) {
  const w = words.close;
  const c = w.column;
  const over: readonly (readonly [string, DaySummary["saved"]])[] = [
    [w.span.day, ofDay],
    ...(spans === null
      ? []
      : ([
          [w.ofDays(w.span.week, spans.week.days), spans.week.saved],
          [w.ofDays(w.span.month, spans.month.days), spans.month.saved],
        ] as const)),
  ];
  const rows = over.flatMap(([span, saved]) =>
    saved.map((one) => [
      span,
      words.habit[one.habit],
      gas(one.habitKWh),
      gas(one.savedKWh),
      money(one.savedMoney, currency),
    ]),
  );
  return (
    <>
      <h2>{w.saved}</h2>
      {rows.length === 0 ? (
        <p>{w.savedNone}</p>
      ) : (
        <Table caption={w.saved} columns={[c.span, c.habit, c.habitGas, c.savedGas, c.savedMoney]} rows={rows} />
      )}
    </>
  );
}
