/** The drawing of the day as a table: loads with their phases, then booth and benches. */
import { clockAt, clockOf } from "../parts/clock.ts";
import { ovenName } from "../parts/day-lookup.ts";
import type { Planned } from "../parts/day-lookup.ts";
import { phasesOf } from "../parts/load-now.ts";
import type { LoadNow } from "../parts/load-now.ts";
import { Table } from "../parts/table.tsx";
import { words } from "../shell/words-en.ts";
import type { Lane } from "./lanes.ts";

interface TableParts {
  readonly planned: Planned;
  readonly loads: readonly LoadNow[];
  readonly lanes: readonly Lane[];
}

export function ClockTable({ planned: { day }, loads, lanes }: TableParts) {
  const c = words.columns;
  const phases = loads.flatMap(({ load }) =>
    phasesOf(load).map(({ name, from, to }) => [
      ovenName(day, load.oven),
      `${words.load(load.id)}: ${words.phase[name]}`,
      clockAt(day.timeZone, from),
      clockAt(day.timeZone, to),
    ]),
  );
  const tasks = lanes.flatMap((lane) =>
    lane.tasks.map((task) => [lane.name, task.said, clockOf(task.from), clockOf(task.to)]),
  );
  return (
    <details>
      <summary>{words.clock.table}</summary>
      <Table caption={words.clock.title} columns={[c.where, c.what, c.from, c.to]} rows={[...phases, ...tasks]} />
    </details>
  );
}
