/** Rule 7: every bake that needs bench or booth has exactly one task there, and nothing else has any. */
import type { DayView, Line } from "./day-view.ts";
import { coatOf } from "./day-view.ts";
import type { Report } from "./fault.ts";
import type { PlanView, Task } from "./plan-view.ts";
import { pieceName } from "./words.ts";

interface TaskLists {
  readonly plan: PlanView;
  readonly prep: readonly Task[];
  readonly booth: readonly Task[];
  readonly report: Report;
}

/** Exactly one task for each bake that needs it. What needs none belongs to no bake and is found here too. */
export function checkTaskCounts(day: DayView, { plan, prep, booth, report }: TaskLists): void {
  const due = { bench: new Set<string>(), booth: new Set<string>() };
  for (const load of plan.loads) {
    if (load.isFact) continue;
    for (const { line, coat, said, key } of load.pans) {
      if (line === undefined || coat === undefined) continue;
      if (needsPrep(day, line, said.coat)) due.bench.add(pieceName(key));
      if (needsSpray(day, line, said.coat)) due.booth.add(`${pieceName(key)} coat ${said.coat}`);
    }
  }
  countTasks("7 bench", due.bench, prep, (task) => pieceName(task.key), report);
  countTasks("7 booth", due.booth, booth, (task) => `${pieceName(task.key)} coat ${task.coat ?? 0}`, report);
}

function needsPrep(day: DayView, line: Line, coat: number): boolean {
  const { pan } = line;
  return day.day.prep.benches > 0 && pan.prepMinutes > 0 && !pan.sprayed && coat === pan.nextCoat;
}

function needsSpray(day: DayView, line: Line, coat: number): boolean {
  return day.day.booth.sprayers > 0 && isSprayed(line, coat);
}

/** True where this coat still has to be sprayed before it is baked. */
export function isSprayed(line: Line, coat: number): boolean {
  const already = line.pan.sprayed && coat === line.pan.nextCoat;
  return !already && (coatOf(line, coat)?.sprayMinutes ?? 0) > 0;
}

function countTasks(
  rule: "7 bench" | "7 booth",
  due: ReadonlySet<string>,
  tasks: readonly Task[],
  nameOf: (task: Task) => string,
  report: Report,
): void {
  const seen = new Set<string>();
  for (const task of tasks) {
    const name = nameOf(task);
    if (!due.has(name) || seen.has(name))
      report({
        rule,
        path: task.path,
        message: `${name} has a task it does not need, or a second one.`,
        said: name,
      });
    seen.add(name);
  }
  for (const name of due)
    if (!seen.has(name))
      report({ rule, path: rule === "7 bench" ? "prep" : "booth", message: `${name} has no task.`, found: name });
}
