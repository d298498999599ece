/** Load numbers are not given twice in a day: those of a re-plan go on where the day's loads ended. */
import type { PlanFile } from "../contract/plan.ts";

/** The highest number among ids like L7; 0 where there is none. */
export function highestNumber(ids: Iterable<string>): number {
  let highest = 0;
  for (const id of ids) {
    const digits = /^L(\d{1,6})$/.exec(id)?.[1];
    if (digits !== undefined) highest = Math.max(highest, Number(digits));
  }
  return highest;
}

/** The plan with `offset` added to the number of every load that was not held, in ids and in sentences. */
export function renumbered(plan: PlanFile, held: ReadonlySet<string>, offset: number): PlanFile {
  if (offset === 0) return plan;
  const names = new Map<string, string>();
  for (const { id } of plan.loads)
    if (!held.has(id) && highestNumber([id]) > 0) names.set(id, `L${highestNumber([id]) + offset}`);
  const text = (sentence: string): string => sentence.replace(/\bL\d+\b/g, (id) => names.get(id) ?? id);
  return {
    ...plan,
    loads: plan.loads.map((load) => ({ ...load, id: names.get(load.id) ?? load.id })),
    tickets: plan.tickets.map((one) => ({ ...one, reason: one.reason === null ? null : text(one.reason) })),
    leftOver: plan.leftOver.map((one) => ({ ...one, reason: text(one.reason) })),
    warnings: plan.warnings.map((one) => ({ ...one, message: text(one.message) })),
  };
}
