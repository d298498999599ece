/** The child process beside a search: proves bounds, or searches from another seed after a first bound, until it is done or killed. */
import { setImmediate as breathe } from "node:timers/promises";
import { planFiring, plainSequence, proveBound, secondsBudget } from "../../solver/index.ts";
import type { PlanRequest, Sequence } from "../../solver/index.ts";
import type { FromBeside, ToBeside } from "./beside-messages.ts";
import { fitHeapTo } from "./lean-heap.ts";
import { pansOf } from "./pans-of.ts";
import { heedOnlyTheParent } from "./parent.ts";

const SLICE_MS = 30;

let cost = Infinity;
let offered: Sequence | undefined;

/** A parent that is gone hears nothing, and that is all. */
const tell = (message: FromBeside): void => void process.send?.(message, undefined, {}, () => undefined);

process.on("message", (message: ToBeside) => {
  if (message.type === "better") {
    cost = Math.min(cost, message.cost);
    offered = message.sequence;
  } else void work(message);
});
heedOnlyTheParent();

async function work(task: Exclude<ToBeside, { type: "better" }>): Promise<void> {
  try {
    if (task.type === "prove") {
      cost = Math.min(cost, task.cost);
      await prove(task.request);
    } else await search(task.request, task.seed, task.seconds);
    tell({ type: "ended" });
  } catch (error) {
    tell({ type: "failed", message: error instanceof Error ? (error.stack ?? error.message) : String(error) });
  }
}

/** Ends at `until`, ms from when this process was started, or when nothing is left; after a first bound at the soonest. */
async function prove(request: PlanRequest, until = Infinity): Promise<void> {
  let told = 0;
  let sliceEnds = performance.now() + SLICE_MS;
  const proving = proveBound(request, () => cost);
  for (let step = proving.next(); ; step = proving.next()) {
    const { total, better } = step.value;
    if (better !== undefined && better.cost < cost) {
      cost = better.cost;
      tell({ type: "better", sequence: plainSequence(better.sequence) });
    }
    const ends = step.done === true || performance.now() >= until;
    if (!ends && performance.now() < sliceEnds) continue;
    if (total > told) tell({ type: "bound", total });
    told = Math.max(told, total);
    await breathe();
    if (ends) return;
    sliceEnds = performance.now() + SLICE_MS;
  }
}

/** So many pans take longer to look at all at once than they leave of a search. */
const MOST_BOUNDED_PANS = 100;
/** Up to so many a look at loads after one another tells enough more to be worth this share of the seconds. */
const MOST_PROVEN_AWHILE_PANS = 30;
const PROOF_SHARE = 0.45;

/** Ends so much sooner than whoever planned that its last plans are heard. */
const SECONDS_SOONER = 0.2;
/** Until it is so far through it goes a way of its own: what both would follow is seldom the better of two. */
const ALONE_UNTIL = 0.7;

async function search(request: PlanRequest, seed: number, seconds: number): Promise<void> {
  const pans = pansOf(request);
  fitHeapTo(pans);
  if (pans <= MOST_BOUNDED_PANS)
    await prove(request, pans <= MOST_PROVEN_AWHILE_PANS ? seconds * 1000 * PROOF_SHARE : 0);
  const secondsNow = (): number => performance.now() / 1000;
  // The seconds are counted from when this process was started; what is left of them is a whole search.
  const progress = secondsBudget(seconds - SECONDS_SOONER - secondsNow(), secondsNow);
  let best: Sequence | undefined;
  let sliceEnds = performance.now() + SLICE_MS;
  const takeOffer = (): Sequence | undefined => {
    if (progress(0) < ALONE_UNTIL) return undefined;
    const latest = offered;
    offered = undefined;
    return latest;
  };
  const planning = planFiring(request, { seed, gapPercent: 0, progress, offered: takeOffer, isSecond: true });
  for (let step = planning.next(); ; step = planning.next()) {
    if (step.done !== true && step.value !== undefined && step.value.cost < cost) {
      best = step.value.sequence();
      cost = step.value.cost;
    }
    if (step.done !== true && performance.now() < sliceEnds) continue;
    if (best !== undefined) tell({ type: "better", sequence: best });
    best = undefined;
    if (step.done === true) return;
    await breathe();
    sliceEnds = performance.now() + SLICE_MS;
  }
}
