/** Rule 7 for the hands: one bench or sprayer does one thing at a time, for exactly as long as it takes. */
import type { DayView } from "./day-view.ts";
import { coatOf, staffedThroughout } from "./day-view.ts";
import type { Report } from "./fault.ts";
import { apart, figure, tolerance } from "./fault.ts";
import type { PlanView, Task } from "./plan-view.ts";
import { checkTaskCounts } from "./task-counts.ts";
import { pieceName } from "./words.ts";

/** Tasks of facts lie in the past and are left alone. */
export function checkHands(day: DayView, plan: PlanView, report: Report): void {
  const { benches } = day.day.prep;
  const { sprayers } = day.day.booth;
  const bakes = bakesByPiece(plan);
  const prep = plan.prep.filter((task) => checkTask(day, task, { bakes, hands: benches, report }));
  const booth = plan.booth.filter((task) => checkTask(day, task, { bakes, hands: sprayers, report }));
  for (let bench = 1; bench <= benches; bench++) checkOneHand(day, prep, bench, report);
  for (let sprayer = 1; sprayer <= sprayers; sprayer++) checkOneHand(day, booth, sprayer, report);
  checkTaskCounts(day, { plan, prep, booth, report });
}

/** The coats of one piece that the plan bakes. */
interface Baked {
  readonly planned: ReadonlySet<number>;
  readonly facts: ReadonlySet<number>;
}

function bakesByPiece(plan: PlanView): Map<string, Baked> {
  const bakes = new Map<string, { planned: Set<number>; facts: Set<number> }>();
  for (const load of plan.loads) {
    for (const pan of load.pans) {
      const known = bakes.get(pan.key) ?? { planned: new Set(), facts: new Set() };
      (load.isFact ? known.facts : known.planned).add(pan.said.coat);
      bakes.set(pan.key, known);
    }
  }
  return bakes;
}

/** True for a task of a bake still to come; such a task is checked here by itself. */
function checkTask(
  day: DayView,
  task: Task,
  with_: { readonly bakes: ReadonlyMap<string, Baked>; readonly hands: number; readonly report: Report },
): boolean {
  const rule = task.coat === undefined ? "7 bench" : "7 booth";
  const baked = with_.bakes.get(task.key);
  const coat = task.coat ?? task.line?.pan.nextCoat ?? 0;
  if (!baked?.planned.has(coat) && baked?.facts.has(coat)) return false;
  const object = (field: string, message: string, said: number | string, found: number | string): void =>
    with_.report({ rule, path: `${task.path}${field}`, message: `${pieceName(task.key)}: ${message}`, said, found });
  if (!baked?.planned.has(coat)) object("", "this task belongs to no bake of the plan.", coat, "no bake");
  const what = task.coat === undefined ? "bench" : "sprayer";
  if (task.hand < 1 || task.hand > with_.hands)
    object(`.${what}`, `there is no ${what} ${task.hand}, the shop has ${with_.hands}.`, task.hand, with_.hands);
  if (!(task.from >= day.planFrom - tolerance.exactMinutes))
    object(".from", "starts before planning starts.", day.clock.show(task.from), day.clock.show(day.planFrom));
  if (!staffedThroughout(day, task.from, task.to))
    object(".from", "nobody is at work throughout this task.", day.clock.show(task.from), day.clock.show(task.to));
  const minutes = task.coat === undefined ? task.line?.pan.prepMinutes : sprayMinutes(task);
  if (minutes !== undefined && apart(task.to - task.from, minutes, tolerance.exactMinutes))
    object(
      ".to",
      `takes ${figure(task.to - task.from)} min, ${figure(minutes)} are due.`,
      task.to - task.from,
      minutes,
    );
  return true;
}

function sprayMinutes(task: Task): number | undefined {
  return task.line && coatOf(task.line, task.coat ?? 0)?.sprayMinutes;
}

/** A gun that changes from one paint to another needs the change-over in between. */
function checkOneHand(day: DayView, tasks: readonly Task[], hand: number, report: Report): void {
  const own = tasks.filter((task) => task.hand === hand).toSorted((a, b) => a.from - b.from || a.to - b.to);
  const paintOf = (task: Task): string | undefined => task.line && coatOf(task.line, task.coat ?? 0)?.paint;
  own.forEach((task, index) => {
    const before = own[index - 1];
    if (before === undefined) return;
    const changes = task.coat !== undefined && paintOf(task) !== paintOf(before);
    const gap = changes ? day.day.booth.changeoverMinutes : 0;
    if (task.from >= before.to + gap - tolerance.exactMinutes) return;
    const between = task.from - before.to;
    report({
      rule: task.coat === undefined ? "7 bench" : "7 booth",
      path: `${task.path}.from`,
      message: `${pieceName(task.key)} starts ${figure(between)} min after ${pieceName(before.key)} ends on the same hand, ${figure(gap)} min are needed.`,
      said: between,
      found: gap,
    });
  });
}
