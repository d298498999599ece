/** The checks with the infrared thermometer as a table, with room to write on paper. */
import { clockOf } from "../parts/clock.ts";
import { pieceName } from "../parts/day-lookup.ts";
import { bare, temperature } from "../parts/figures.ts";
import { Table } from "../parts/table.tsx";
import { words } from "../shell/words-en.ts";
import { checkPoints } from "./check-points.ts";
import type { SheetPart } from "./load-sheet.tsx";

export function Checks({ planned, one: { load } }: SheetPart) {
  const points = checkPoints(planned, load);
  const w = words.sheet;
  return (
    <section>
      <h2>{w.checks}</h2>
      {points.length === 0 ? (
        <p>{w.noChecks}</p>
      ) : (
        <Table
          caption={w.checks}
          columns={[w.checkAt, w.aimAt, w.target, w.expected, w.read]}
          rows={points.map(({ what, at, pan, leastC, mostC, expectedC }) => [
            clockOf(at),
            `${pieceName(planned.day, pan)}, ${w.aim[what]}`,
            `${bare("temperature", leastC)} – ${temperature(mostC)}`,
            temperature(expectedC),
            <span class="blank" />,
          ])}
        />
      )}
      <p class="fine">{w.checkHint}</p>
    </section>
  );
}
