/**
 * How far bench and booth are with a pan that waits. Spraying begun is spraying done: the gun is not put down half-way. Bench
 * work goes on where it stands.
 */
import type { DayFile } from "../contract/day.ts";
import type { PanFile } from "./pieces.ts";
import { MINUTE, firstStaffed } from "./instants.ts";
import type { InForcePlan, Moment } from "./progress.ts";

interface Work {
  readonly from: number;
  readonly to: number;
}

/** `since`: what the plan said of the pan before then was taken back. */
export function handsSoFar(pan: PanFile, plan: InForcePlan, moment: Moment, since: number): PanFile {
  const { now, time } = moment;
  const bench = benchWork(pan, plan, moment, since);
  const spraying = boothWork(pan, plan, moment, { since, ready: bench?.to ?? readyAt(pan, plan, moment, since) });
  if (spraying !== undefined && spraying.from < now) {
    const flashed = spraying.to + flashMillis(pan, moment);
    return { ...pan, sprayed: true, prepMinutes: 0, readyAt: time.write(flashed) };
  }
  if (bench === undefined || bench.from >= now) return pan;
  // Planning begins at the next whole minute.
  const left = Math.max(0, (bench.to - Math.ceil(now / MINUTE) * MINUTE) / MINUTE);
  return { ...pan, prepMinutes: left, ...(left === 0 ? { readyAt: time.write(bench.to) } : {}) };
}

/** Where nobody counts the benches the plan has no task, but it reckons with the work as soon as can be. */
function benchWork(pan: PanFile, plan: InForcePlan, moment: Moment, since: number): Work | undefined {
  const { prepMinutes = 0 } = pan;
  if (prepMinutes === 0) return undefined;
  if (plan.day.prep?.benches !== 0) return taskOf(pan, plan.plan.prep, moment, since);
  if (nextDoor(pan, plan, moment) === undefined) return undefined;
  return asSoonAsCanBe(plan.day, readyAt(pan, plan, moment, since), prepMinutes * MINUTE);
}

/** Where nobody counts the sprayers it reckons with spraying so late that the flash ends with the door's opening. */
function boothWork(
  pan: PanFile,
  plan: InForcePlan,
  moment: Moment,
  { since, ready }: { readonly since: number; readonly ready: number },
): Work | undefined {
  const coat = pan.nextCoat ?? 1;
  if (plan.day.booth?.sprayers !== 0) {
    const tasks = plan.plan.booth.filter((task) => task.coat === coat);
    return taskOf(pan, tasks, moment, since);
  }
  const spray = moment.sprayMinutes(pan.coating, coat) * MINUTE;
  const door = nextDoor(pan, plan, moment);
  if (pan.sprayed === true || spray === 0 || door === undefined) return undefined;
  const soonest = asSoonAsCanBe(plan.day, ready, spray);
  if (soonest === undefined) return undefined;
  const to = Math.max(soonest.to, door - flashMillis(pan, moment));
  return { from: to - spray, to };
}

type Task = InForcePlan["plan"]["prep"][number];

function taskOf(
  { id }: PanFile,
  tasks: readonly Pick<Task, "id" | "from" | "to">[],
  { time }: Moment,
  since: number,
): Work | undefined {
  return tasks
    .filter((task) => task.id === id)
    .map(({ from, to }) => ({ from: time.millis(from), to: time.millis(to) }))
    .find(({ from }) => from >= since);
}

/** The door of the load of the plan that bakes the pan's next coat. */
function nextDoor(pan: PanFile, { loads }: InForcePlan, { time }: Moment): number | undefined {
  const coat = pan.nextCoat ?? 1;
  const entry = loads.find(
    ({ load, state }) =>
      (state === "planned" || state === "pinned") &&
      load.pans.some((place) => place.id === pan.id && place.coat === coat),
  );
  return entry === undefined ? undefined : time.millis(entry.load.doorOpensAt);
}

function readyAt(pan: PanFile, { day }: InForcePlan, { time }: Moment, since: number): number {
  return Math.max(time.millis(pan.readyAt), time.millis(day.planFrom), since);
}

function asSoonAsCanBe(day: DayFile, ready: number, millis: number): Work | undefined {
  const from = firstStaffed(day, Math.ceil(ready / MINUTE) * MINUTE, millis);
  return from === undefined ? undefined : { from, to: from + millis };
}

function flashMillis({ coating, nextCoat = 1 }: PanFile, { flashMinutes }: Moment): number {
  return Math.ceil(flashMinutes(coating, nextCoat)) * MINUTE;
}
