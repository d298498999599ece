/** A kept plan made again from what is kept with it, and held against it byte by byte. */
import type { DayFile } from "../contract/day.ts";
import type { PlanFile } from "../contract/plan.ts";
import { readDay } from "../day/read-day.ts";
import type { Course } from "../planning/course.ts";
import { unpackCourse } from "../planning/course.ts";
import { remakeDay } from "../planning/remake-day.ts";
import type { PlanRow } from "../store/tables.ts";
import { version } from "../version.ts";
import { handedOut } from "./handed-out.ts";
import type { SearchOptions } from "./messages.ts";
import { renumbered } from "./number-loads.ts";

export interface Remade {
  /** Not one byte differs. */
  readonly same: boolean;
  /** As it is handed out. */
  readonly plan: PlanFile;
  readonly course: Course;
  readonly options: SearchOptions;
}

/** Why a plan of the file cannot be made again, for whoever asked. */
export class NotRemakable extends Error {}

/** Takes about as long as its search took. Throws `NotRemakable`. */
export function remade(row: PlanRow): Remade {
  const course = courseOf(row);
  const options = JSON.parse(row.request) as SearchOptions;
  const file = JSON.parse(row.day) as DayFile;
  const read = readDay(file);
  if (!read.ok) throw new NotRemakable(`The day of ${row.id} can no longer be read: ${read.problems[0]?.message}`);
  const { seed, gapPercent, numberFrom } = options;
  const held = new Set(read.day.held.map(({ id }) => id));
  const again = renumbered(remakeDay({ day: read.day, seed, gapPercent, course }), held, numberFrom);
  return { same: JSON.stringify(again) === row.plan, plan: handedOut(row, again).plan, course, options };
}

function courseOf({ id, state, plan, version: made, course }: PlanRow): Course {
  if (state === "queued" || state === "searching") throw new NotRemakable(`${id} is still being searched.`);
  if (plan === null) throw new NotRemakable(`The search ${id} has left no plan.`);
  if (made !== version)
    throw new NotRemakable(
      `${id} was made by Ovenful ${made} and this is ${version}: only the version that made a plan makes it again.`,
    );
  if (course === null)
    throw new NotRemakable(`${id} was kept by a program that did not yet write down the course of a search.`);
  return unpackCourse(course);
}
