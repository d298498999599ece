/** What the bottle in use still holds: what was said of it, less what the firings since then have burnt. */
import type { DayFile } from "../contract/day.ts";
import type { EditedRow } from "../store/tables.ts";
import { isDone } from "./progress.ts";
import type { LoadNow, Moment } from "./progress.ts";

type Gas = NonNullable<DayFile["gas"]>;

/** `row` is the setting "gas"; it follows the firings from the instant on at which somebody last said what is left. */
export function gasNow(
  gas: Gas,
  row: Pick<EditedRow, "follows"> | undefined,
  loads: readonly LoadNow[],
  moment: Moment,
): Gas {
  if (gas.unitsLeft === undefined || gas.unitsLeft === null) return gas;
  const since = row === undefined || row.follows === "" ? -Infinity : Date.parse(row.follows);
  const burntKWh = loads
    .filter((entry) => entry.state === "interrupted" || (entry.state !== "dropped" && isDone(entry, moment)))
    .filter(({ load }) => moment.time.millis(load.doneAt) > since)
    .reduce((sum, { load }) => sum + load.gasKWh, 0);
  const unitsLeft = Math.max(0, gas.unitsLeft - burntKWh / gas.grossKWhPerUnit);
  return { ...gas, unitsLeft: Math.round(unitsLeft * 1000) / 1000 };
}
