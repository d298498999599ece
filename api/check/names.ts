/** Names, numbers and instants that must mean something before any rule can be asked: ids, items, coats, shelves, offsets. */
import type { DayView } from "./day-view.ts";
import type { Report } from "./fault.ts";
import { tolerance } from "./fault.ts";
import type { Load, LoadPan, PlanView, Task } from "./plan-view.ts";
import { pieceName } from "./words.ts";

export function checkNames(day: DayView, plan: PlanView, report: Report): void {
  const object = (path: string, message: string): void => report({ rule: "names", path, message });
  const ids = new Set<string>();
  for (const load of plan.loads) {
    if (ids.has(load.said.id)) object(`${load.path}.id`, `Two loads are called ${load.said.id}.`);
    ids.add(load.said.id);
    if (load.oven === undefined) object(`${load.path}.oven`, `The day has no oven ${load.said.oven}.`);
    for (const pan of load.pans) checkPanNames(load, pan, object);
  }
  for (const task of [...plan.prep, ...plan.booth])
    if (task.line === undefined) object(task.path, `The day has no ${pieceName(task.key)}.`);
  if (plan.file.dayTitle !== day.day.title)
    object("dayTitle", `The plan is for "${plan.file.dayTitle}", the day is "${day.day.title}".`);
  checkWholeMinutes(day, plan, report);
  checkOffsets(day, plan, report);
}

function checkPanNames(load: Load, pan: LoadPan, object: (path: string, message: string) => void): void {
  const { said, path, line, coat } = pan;
  if (line === undefined) object(path, `The day has no ${pieceName(pan.key)}.`);
  else if (coat === undefined) object(`${path}.coat`, `${pieceName(pan.key)} has no coat ${said.coat}.`);
  const space = load.oven?.space;
  if (space?.kind === "shelves" && said.shelf !== null && !space.shelves.some(({ id }) => id === said.shelf))
    object(`${path}.shelf`, `Oven ${load.said.oven} has no shelf ${said.shelf}.`);
  if (space?.kind === "area" && said.shelf !== null)
    object(`${path}.shelf`, `Oven ${load.said.oven} has no shelves, yet ${pieceName(pan.key)} is on ${said.shelf}.`);
}

/** What a person does falls on whole minutes. */
function checkWholeMinutes(day: DayView, plan: PlanView, report: Report): void {
  const whole = (rule: "4 oven" | "7 bench" | "7 booth", path: string, minute: number | null): void => {
    if (minute === null || Math.abs(minute - Math.round(minute)) <= tolerance.exactMinutes) return;
    report({
      rule,
      path,
      message: `${day.clock.show(minute)} is no whole minute.`,
      said: day.clock.show(minute),
    });
  };
  for (const load of plan.loads) {
    if (load.isFact) continue;
    whole("4 oven", `${load.path}.doorOpensAt`, load.opens);
    whole("4 oven", `${load.path}.doorClosesAt`, load.closes);
    whole("4 oven", `${load.path}.burnerOffAt`, load.burnerOff);
    whole("4 oven", `${load.path}.unloadAt`, load.unload);
    whole("4 oven", `${load.path}.doneAt`, load.done);
  }
  const tasks = (rule: "7 bench" | "7 booth", list: readonly Task[]): void => {
    for (const task of list) {
      whole(rule, `${task.path}.from`, task.from);
      whole(rule, `${task.path}.to`, task.to);
    }
  };
  tasks("7 bench", plan.prep);
  tasks("7 booth", plan.booth);
}

/** Every instant of the plan carries the offset that the zone's clocks have just then. */
function checkOffsets(day: DayView, plan: PlanView, report: Report): void {
  const { clock } = day;
  const check = (path: string, text: string | null): void => {
    if (text === null) return;
    const said = clock.offsetSaid(text);
    const found = clock.offsetAt(clock.minutes(text));
    if (said === found) return;
    report({
      rule: "said",
      path,
      message: `${text} does not carry the offset that ${day.day.timeZone} has then, ${found} min.`,
      said: said ?? "no offset",
      found,
    });
  };
  for (const { path, said } of plan.loads) {
    for (const field of loadInstants) check(`${path}.${field}`, said[field]);
    for (const [index, pan] of said.pans.entries()) {
      check(`${path}.pans[${index}].inWindowAt`, pan.inWindowAt);
      check(`${path}.pans[${index}].cooledAt`, pan.cooledAt);
    }
  }
  const { file } = plan;
  for (const list of ["prep", "booth"] as const)
    for (const [index, task] of file[list].entries()) {
      check(`${list}[${index}].from`, task.from);
      check(`${list}[${index}].to`, task.to);
    }
  for (const [index, ticket] of file.tickets.entries()) {
    check(`tickets[${index}].readyAt`, ticket.readyAt);
    check(`tickets[${index}].promisedAt`, ticket.promisedAt);
  }
}

const loadInstants = [
  "doorOpensAt",
  "doorClosesAt",
  "burnerOnAt",
  "setPointAt",
  "burnerOffAt",
  "unloadAt",
  "doneAt",
] as const;
