/** A plan made again from its day, its seed and the course of its search: the same to the byte. */
import type { Day } from "../contract/day.ts";
import type { PlanFile } from "../contract/plan.ts";
import { toRequest } from "../day/to-solver.ts";
import { planFiring } from "../../solver/index.ts";
import type { FiringPlan, PlanRequest } from "../../solver/index.ts";
import type { Course } from "./course.ts";
import { replayed } from "./course.ts";
import { writeChecked } from "./write-checked.ts";

/** The day that was planned from and what the search was asked for. Same version of the program, else another plan comes out. */
export interface Remaking {
  readonly day: Day;
  readonly seed: number;
  readonly gapPercent: number;
  readonly course: Course;
}

/** Takes about as long as the search took. Throws `PlanFault` where the checker objects. */
export function remakeDay({ day, seed, gapPercent, course }: Remaking): PlanFile {
  const request = toRequest(day);
  const plan = searchedAgain(request, { seed, gapPercent, course });
  const { seconds, madeAt } = course;
  return writeChecked({ day, request, plan, seed, seconds, madeAt, checkSavings: course.pauses === null });
}

function searchedAgain(
  request: PlanRequest,
  { seed, gapPercent, course }: Pick<Remaking, "seed" | "gapPercent" | "course">,
): FiringPlan {
  const planning = planFiring(request, { seed, gapPercent, ...replayed(course) });
  for (let pauses = 1; ; pauses++) {
    const step = planning.next();
    if (step.done === true) return step.value;
    if (pauses === course.pauses && step.value !== undefined) return step.value.plan();
  }
}
