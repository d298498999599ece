/** Every load of the day as a table. */
import { clockOf } from "../parts/clock.ts";
import { ovenName } from "../parts/day-lookup.ts";
import type { Planned } from "../parts/day-lookup.ts";
import { gas, temperature } from "../parts/figures.ts";
import { burnerOffWindow } from "../parts/load-now.ts";
import type { LoadNow } from "../parts/load-now.ts";
import { Table } from "../parts/table.tsx";
import { words } from "../shell/words-en.ts";

interface LoadsParts {
  readonly planned: Planned;
  readonly loads: readonly LoadNow[];
}

export function LoadsTable({ planned: { day }, loads }: LoadsParts) {
  const c = words.columns;
  return (
    <section>
      <h2>{words.loads}</h2>
      <Table
        caption={words.loads}
        columns={[
          c.load,
          c.oven,
          c.what,
          c.setPoint,
          c.doorOpens,
          c.earliest,
          c.latest,
          c.unload,
          c.pans,
          c.gas,
          c.state,
        ]}
        rows={loads.map(({ load, state }) => [
          <a class="loadlink" href={`#/load/${encodeURIComponent(load.id)}`}>
            {load.id}
          </a>,
          ovenName(day, load.oven),
          words.kind[load.kind],
          load.setPointC === null ? words.fixedCycle : temperature(load.setPointC),
          clockOf(load.doorOpensAt),
          ...offCells(day, load),
          clockOf(load.unloadAt),
          load.pans.length,
          gas(load.gasKWh),
          words.loadState[state],
        ])}
      />
      <p class="fine">{words.offNote}</p>
    </section>
  );
}

function offCells(day: Planned["day"], load: LoadNow["load"]): [string, string] {
  const off = burnerOffWindow(day, load);
  return off === null ? [words.none, words.none] : [clockOf(off.earliest), clockOf(off.latest)];
}
