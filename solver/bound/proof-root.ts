/** One choice of what is left over: how far each pan gets, what that costs, and the least that then remains. */
import type { ProofTask, Step } from "./proof-task.ts";

export interface Root {
  /** Per pan of the task: steps baked. */
  readonly goals: Uint8Array;
  /** Per pan: alike pans with the same goal share a number. */
  readonly alike: Uint16Array;
  /** Price of what is left over. */
  readonly price: number;
  /** The last firing ends no sooner, whatever the task's pans do. */
  readonly leastFinish: number;
  /** Per ticket of the day: ready no sooner, whatever the task's pans do. */
  readonly ticketBase: Float64Array;
  /** Per pan: minutes from the end of each spraying to the last done. */
  readonly tails: readonly Float64Array[];
  /** The same to the hand-over. */
  readonly readyTails: readonly Float64Array[];
  /** From the end of each bake to the last done, and to the hand-over. */
  readonly bakeTails: readonly Float64Array[];
  readonly bakeReadyTails: readonly Float64Array[];
}

/** What pans outside the task make sure of; `leastFinish` by how many coats of the task are left over. */
export interface Sure {
  readonly ticketBase: Float64Array;
  readonly leastFinish: (left: number) => number;
}

export function rootOf(task: ProofTask, goals: Uint8Array, sure: Sure): Root {
  const { request, pans: dayPans } = task.day;
  const base = Float64Array.from(sure.ticketBase);
  const alike = new Uint16Array(goals.length);
  let price = 0;
  let left = 0;
  task.pans.forEach(({ pan, line, ticket, steps }, at) => {
    const last = task.pans[at - 1];
    const same = last?.line === line && last.steps.length === steps.length && goals[at - 1] === goals[at];
    alike[at] = at === 0 ? 0 : alike[at - 1]! + (same ? 0 : 1);
    const missing = steps.length - goals[at]!;
    if (missing === 0) return;
    left += missing;
    price += (request.lines[line]!.leftOverCost * missing) / dayPans[pan]!.due.length;
    base[ticket] = Math.max(base[ticket]!, request.nextOpenMinute);
  });
  const { finishMinutes } = request;
  const tails = task.pans.map(({ steps }, at) => tailsOf(steps.slice(0, goals[at]), ({ doneMinutes }) => doneMinutes));
  const readyTails = task.pans.map(({ steps }, at) =>
    tailsOf(steps.slice(0, goals[at]), ({ nextMinutes }) => nextMinutes + finishMinutes),
  );
  const bakeTails = task.pans.map(({ steps }, at) => afterBakes(steps, tails[at]!, 0));
  const bakeReadyTails = task.pans.map(({ steps }, at) =>
    afterBakes(steps, readyTails[at]!, (steps[goals[at]! - 1]?.afterMinutes ?? 0) + finishMinutes),
  );
  const leastFinish = sure.leastFinish(left);
  return { goals, alike, price, leastFinish, ticketBase: base, tails, readyTails, bakeTails, bakeReadyTails };
}

/** `tails`: from the end of each spraying. */
function afterBakes(steps: readonly Step[], tails: Float64Array, last: number): Float64Array {
  return tails.map((_, at) =>
    at + 1 === tails.length ? last : steps[at]!.afterMinutes + steps[at + 1]!.sprayMinutes + tails[at + 1]!,
  );
}

function tailsOf(steps: readonly Step[], last: (step: Step) => number): Float64Array {
  const tails = new Float64Array(steps.length);
  for (let at = steps.length - 1; at >= 0; at--) {
    const step = steps[at]!;
    const next = steps[at + 1];
    tails[at] = next === undefined ? last(step) : step.nextMinutes + next.sprayMinutes + tails[at + 1]!;
  }
  return tails;
}
