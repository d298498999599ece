/** What to promise for a job before it is taken: read off the plan that takes it in. */
import type { PlanFile } from "../contract/plan.ts";
import { MINUTE } from "../shop/instants.ts";
import type { ShopTime } from "../shop/instants.ts";
import type { Extra } from "./searches.ts";

export type Job = NonNullable<Extra["quote"]>;

/** All milliseconds. */
export interface Promised {
  /** Earliest safe hand-over; null: not within the day. */
  readonly ready: number | null;
  readonly promise: number | null;
  /** Of the customer; null: none. */
  readonly wish: number | null;
}

const promiseStepMinutes = 5;

/** True for a pan of the job, or a piece of one of its lines. */
export function isOfJob({ pans }: Job, id: string): boolean {
  return pans.some((pan) => id === pan.id || id.startsWith(`${pan.id}.`));
}

export function jobTickets({ pans }: Job): Set<string> {
  return new Set(pans.map((pan) => pan.ticket ?? pan.id));
}

export function promiseOf(plan: PlanFile, job: Job, time: ShopTime): Promised {
  const tickets = jobTickets(job);
  const own = plan.tickets.filter(({ ticket }) => tickets.has(ticket));
  const isLeft = own.length === 0 || plan.leftOver.some(({ id }) => isOfJob(job, id));
  const ready = isLeft ? null : Math.max(...own.map(({ readyAt }) => time.millis(readyAt)));
  const wishes = job.pans.flatMap(({ promisedAt }) => promisedAt ?? []).map((wish) => time.millis(wish));
  const wish = wishes.length === 0 ? null : Math.max(...wishes);
  return { ready, promise: ready === null ? null : promiseFor(ready, job.marginMinutes, wish), wish };
}

/** A margin on top, then up to the next five minutes; a wish that leaves at least the margin is simply promised. */
function promiseFor(ready: number, marginMinutes: number, wish: number | null): number {
  const step = promiseStepMinutes * MINUTE;
  const safe = Math.ceil((ready + marginMinutes * MINUTE) / step) * step;
  return wish !== null && wish >= safe ? wish : safe;
}
