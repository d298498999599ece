/** What one plan changes against another: pans that go in at another time or in another load, tickets that are ready at another time. */
import type { Difference, PanDifference, TicketDifference } from "../../api/contract/searching.ts";
import { lateMinutesShown } from "../../api/contract/words.ts";
import { words } from "../shell/words-en.ts";
import { whenOf } from "./clock.ts";
import { rounded, temperature } from "./figures.ts";
import { Table } from "./table.tsx";
import { minuteUp } from "./zone.ts";

const unchanged: ReadonlySet<PanDifference["change"]> = new Set(["same", "done", "none"]);

/** Pans that share was and becomes stand in one row. */
export function PansMoved({ difference }: { readonly difference: Difference }) {
  const w = words.difference;
  const bake = (one: PanDifference["was"]): string =>
    one === null
      ? words.none
      : [
          whenOf(one.doorOpensAt, difference.asOf),
          words.load(one.load),
          ...(one.setPointC === null ? [] : [temperature(one.setPointC)]),
        ].join(", ");
  const rows = new Map<string, { readonly pans: string[]; readonly cells: readonly string[] }>();
  for (const one of difference.pans.filter(({ change }) => !unchanged.has(change))) {
    const cells = [w.change[one.change], bake(one.was), bake(one.becomes), movedBy(one.minutes)];
    const row = rows.get(cells.join("|")) ?? { pans: [], cells };
    row.pans.push(one.pan);
    rows.set(cells.join("|"), row);
  }
  if (rows.size === 0) return <p>{w.noPan}</p>;
  return (
    <Table
      caption={w.pans}
      columns={[words.columns.pans, w.what, w.was, w.becomes, w.moved]}
      rows={[...rows.values()].map(({ pans, cells }) => [<span class="names">{pans.join(", ")}</span>, ...cells])}
    />
  );
}

interface TicketsParts {
  readonly caption: string;
  readonly tickets: readonly TicketDifference[];
  /** Times of this day are shown without their date. */
  readonly asOf: string;
  readonly timeZone: string;
}

export function TicketsMoved({ caption, tickets, asOf, timeZone }: TicketsParts) {
  const w = words.difference;
  const c = words.columns;
  const at = (instant: string | null): string => (instant === null ? words.none : whenOf(instant, asOf));
  return (
    <Table
      caption={caption}
      columns={[c.ticket, w.was, w.becomes, w.moved, c.promised, c.late]}
      rows={tickets.map((one) => [
        one.ticket,
        at(one.wasReadyAt && minuteUp(timeZone, one.wasReadyAt)),
        at(one.readyAt && minuteUp(timeZone, one.readyAt)),
        movedBy(one.minutes),
        at(one.promisedAt),
        one.lateMinutes !== null && one.lateMinutes > 0 ? w.minutes(rounded(lateMinutesShown(one))) : w.inTime,
      ])}
    />
  );
}

function movedBy(minutes: number | null): string {
  if (minutes === null || minutes === 0) return words.none;
  const text = words.difference.minutes(rounded(Math.abs(minutes)));
  return minutes > 0 ? words.difference.later(text) : words.difference.earlier(text);
}
