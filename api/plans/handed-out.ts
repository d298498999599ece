/**
 * The plan of a search as it is handed out, with the day that it keeps. A job that is only asked about is searched for
 * with the customer's wish, or as wanted at once; what is handed out, and accepted, has the promise that the quote gives.
 */
import type { DayFile } from "../contract/day.ts";
import type { PlanFile } from "../contract/plan.ts";
import { MINUTE, shopTime } from "../shop/instants.ts";
import type { PlanRow } from "../store/tables.ts";
import { panRate, ticketRate } from "./late-rate.ts";
import { isOfJob, jobTickets, promiseOf } from "./promise.ts";
import type { Extra } from "./searches.ts";

export interface HandedOut {
  readonly day: DayFile;
  readonly plan: PlanFile;
  /** What the search was told to aim for, pan by pan; empty: what the day says. With them the plan can be made again. */
  readonly wishes: Readonly<Record<string, string>>;
}

export function handedOut({ day, extra }: Pick<PlanRow, "day" | "extra">, plan: PlanFile): HandedOut {
  const searched = JSON.parse(day) as DayFile;
  const { quote: job } = JSON.parse(extra) as Extra;
  if (job === null) return { day: searched, plan, wishes: {} };
  const time = shopTime(searched);
  const { promise } = promiseOf(plan, job, time);
  const own = searched.pans.filter(({ id }) => isOfJob(job, id));
  const wishes = Object.fromEntries(own.map(({ id, promisedAt }) => [id, promisedAt ?? ""]));
  if (promise === null) return { day: searched, plan, wishes };
  const promisedAt = time.write(promise);
  const pans = searched.pans.map((pan) => (isOfJob(job, pan.id) ? { ...pan, promisedAt } : pan));
  const promised = { ...searched, pans };
  return { day: promised, plan: accounted(plan, searched, promised, jobTickets(job), promise), wishes };
}

/** The same plan, counted by the new promise of the job's tickets. */
function accounted(plan: PlanFile, before: DayFile, day: DayFile, job: ReadonlySet<string>, promise: number): PlanFile {
  const time = shopTime(day);
  const tickets = plan.tickets.map((one) => {
    if (!job.has(one.ticket)) return one;
    const late = Math.max(0, time.millis(one.readyAt) - promise) / MINUTE;
    const reason = late > 0 ? one.reason : null;
    return { ...one, promisedAt: time.write(promise), lateMinutes: rounded(late, 2), reason };
  });
  const late = tickets.reduce((sum, one) => sum + (one.lateMinutes / 60) * ticketRate(day, one.ticket), 0);
  const parts = { ...plan.cost, late: rounded(late, 4) };
  const total = rounded(parts.gas + parts.crew + parts.late + parts.leftOver + parts.moved, 4);
  return { ...plan, tickets, cost: { ...parts, total }, search: boundBy(plan, before, day, total) };
}

/**
 * Later promises take off any plan's cost at most their lateness from the old promise to the new one: a lower bound less
 * that much is one still.
 */
function boundBy({ search }: PlanFile, before: DayFile, day: DayFile, total: number): PlanFile["search"] {
  const time = shopTime(day);
  const most = day.pans.reduce((sum, pan, i) => {
    const was = before.pans[i]?.promisedAt ?? null;
    const becomes = pan.promisedAt ?? null;
    if (was === null || becomes === null) return sum;
    return sum + (Math.max(0, time.millis(becomes) - time.millis(was)) / 3_600_000) * panRate(day, pan);
  }, 0);
  const less = (figure: number): number => Math.max(0, Math.floor((figure - most) * 10_000) / 10_000);
  const bestPossibleCost = Math.min(total, less(search.bestPossibleCost));
  const gapPercent = total > 0 ? Math.max(0, rounded((100 * (total - bestPossibleCost)) / total, 4)) : 0;
  const status = search.status === "proven" && gapPercent > provenPercent ? "good" : search.status;
  const { unavoidable } = search;
  return {
    ...search,
    status,
    bestPossibleCost,
    gapPercent,
    unavoidable: unavoidable === null ? null : { ...unavoidable, late: less(unavoidable.late) },
  };
}

/** Up to this gap a plan may be called proven. */
const provenPercent = 0.1;

function rounded(value: number, decimals: number): number {
  return Number(value.toFixed(decimals));
}
