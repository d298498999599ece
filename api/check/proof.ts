/** The claim of how good the plan is: bound, gap and status agree with each other and with the cost. */
import type { Report } from "./fault.ts";
import { apart, figure, moneyTolerance, tolerance } from "./fault.ts";
import type { PlanView } from "./plan-view.ts";

/** A plan counts as proven up to this gap. */
const provenPercent = 0.1;

export function checkProof(plan: PlanView, report: Report): void {
  const { total } = plan.file.cost;
  const { bestPossibleCost, gapPercent, status } = plan.file.search;
  const gap = total > 0 ? (100 * (total - bestPossibleCost)) / total : 0;
  if (bestPossibleCost > total + moneyTolerance(total))
    report({
      rule: "proof",
      path: "search.bestPossibleCost",
      message: `No plan is said to cost less than ${figure(bestPossibleCost)}, yet this one costs ${figure(total)}.`,
      said: bestPossibleCost,
      found: total,
    });
  const written = total > 0 ? (100 * tolerance.writtenMoney) / total : 0;
  if (apart(gapPercent, Math.max(0, gap), tolerance.percent + written))
    report({
      rule: "proof",
      path: "search.gapPercent",
      message: `The gap is said to be ${figure(gapPercent)} %, found ${figure(gap)} %.`,
      said: gapPercent,
      found: gap,
    });
  const rounding = total > 0 ? (100 * tolerance.money) / total : 0;
  if (status === "proven" && gap > provenPercent + rounding)
    report({
      rule: "proof",
      path: "search.status",
      message: `The plan is called proven with a gap of ${figure(gap)} %, ${figure(provenPercent)} % is the most.`,
      said: status,
      found: gap,
    });
}
