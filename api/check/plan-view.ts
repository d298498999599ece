/** The plan file as the checker reads it: instants in minutes since the epoch, ids resolved where the day knows them. */
import type { DayCoat, DayOven } from "../contract/day.ts";
import type { PlanFile, PlanLoad } from "../contract/plan.ts";
import type { Clock } from "./clock.ts";
import type { DayView, Line } from "./day-view.ts";
import { coatOf, pieceKey } from "./day-view.ts";

export interface LoadPan {
  readonly path: string;
  readonly said: PlanLoad["pans"][number];
  readonly key: string;
  /** Undefined where the day has no such pan or item. */
  readonly line: Line | undefined;
  /** Undefined where its coating has no such coat. */
  readonly coat: DayCoat | undefined;
}

export interface Load {
  readonly path: string;
  readonly said: PlanLoad;
  /** Undefined where the day has no such oven. */
  readonly oven: DayOven | undefined;
  /** Fired or firing: a fact, exempt from rules 2 to 8. */
  readonly isFact: boolean;
  readonly opens: number;
  readonly closes: number;
  readonly burnerOn: number | null;
  readonly burnerOff: number | null;
  readonly unload: number;
  readonly done: number;
  readonly pans: readonly LoadPan[];
}

/** A bench or booth task. `coat` is undefined on the bench. */
export interface Task {
  readonly path: string;
  readonly key: string;
  readonly line: Line | undefined;
  readonly coat: number | undefined;
  /** Bench or sprayer, from 1. */
  readonly hand: number;
  readonly from: number;
  readonly to: number;
}

export interface PlanView {
  readonly file: PlanFile;
  /** In the order of the file. */
  readonly loads: readonly Load[];
  readonly prep: readonly Task[];
  readonly booth: readonly Task[];
}

export function viewPlan(day: DayView, file: PlanFile): PlanView {
  return {
    file,
    loads: file.loads.map((load, index) => viewLoad(day, load, `loads[${index}]`)),
    prep: file.prep.map((task, index) => ({
      ...viewTask(day, task, `prep[${index}]`),
      coat: undefined,
      hand: task.bench,
    })),
    booth: file.booth.map((task, index) => ({
      ...viewTask(day, task, `booth[${index}]`),
      coat: task.coat,
      hand: task.sprayer,
    })),
  };
}

function viewLoad(day: DayView, said: PlanLoad, path: string): Load {
  const { clock } = day;
  return {
    path,
    said,
    oven: day.ovens.get(said.oven),
    isFact: said.state === "fired" || said.state === "firing",
    opens: clock.minutes(said.doorOpensAt),
    closes: clock.minutes(said.doorClosesAt),
    burnerOn: optional(clock, said.burnerOnAt),
    burnerOff: optional(clock, said.burnerOffAt),
    unload: clock.minutes(said.unloadAt),
    done: clock.minutes(said.doneAt),
    pans: said.pans.map((pan, index) => {
      const line = lineOf(day, pan);
      return {
        path: `${path}.pans[${index}]`,
        said: pan,
        key: pieceKey(pan.id, pan.item),
        line,
        coat: line && coatOf(line, pan.coat),
      };
    }),
  };
}

function viewTask(
  day: DayView,
  task: { readonly id: string; readonly item: number; readonly from: string; readonly to: string },
  path: string,
): Omit<Task, "coat" | "hand"> {
  return {
    path,
    key: pieceKey(task.id, task.item),
    line: lineOf(day, task),
    from: day.clock.minutes(task.from),
    to: day.clock.minutes(task.to),
  };
}

function lineOf(day: DayView, of: { readonly id: string; readonly item: number }): Line | undefined {
  const line = day.lines.get(of.id);
  return line !== undefined && of.item <= line.pan.quantity ? line : undefined;
}

function optional(clock: Clock, text: string | null): number | null {
  return text === null ? null : clock.minutes(text);
}

/** The loads of one oven in order of door opening; loads that open together keep the order of the file. */
export function loadsOfOven(plan: PlanView, oven: string): Load[] {
  return plan.loads.filter(({ said }) => said.oven === oven).toSorted((a, b) => a.opens - b.opens || a.done - b.done);
}
