/** What a rush job costs and when it can be promised, read off the plan that takes it in. */
import type { DayFile } from "../contract/day.ts";
import type { PlanFile } from "../contract/plan.ts";
import type { Difference, Quote } from "../contract/searching.ts";
import { MINUTE, shopTime } from "../shop/instants.ts";
import { clockText } from "./difference-words.ts";
import { ticketRate } from "./late-rate.ts";
import { isOfJob, jobTickets, promiseOf } from "./promise.ts";
import type { Job } from "./promise.ts";
import type { Extra } from "./searches.ts";

/** Of the day and the plan as they are handed out: what the quote says is what accepting it puts in force. */
export function quoteOf(day: DayFile, plan: PlanFile, extra: Extra, difference: Difference | null): Quote | null {
  const job = extra.quote;
  if (job === null) return null;
  const time = shopTime(day);
  const tickets = jobTickets(job);
  const { ready, promise, wish } = promiseOf(plan, job, time);
  const written = (instant: number | null): string | null => (instant === null ? null : time.write(instant));
  const slips = (difference?.tickets ?? [])
    .filter(({ ticket, minutes }) => !tickets.has(ticket) && (minutes ?? 0) > 0)
    .map(({ ticket, minutes, lateMinutes, words }) => ({
      ticket,
      minutes: minutes ?? 0,
      lateMinutes: lateMinutes ?? 0,
      words,
    }));
  const costs = extraCosts(day, plan, difference, tickets);
  const figures = {
    earliestReadyAt: written(ready),
    promiseAt: written(promise),
    wishAt: written(wish),
    wishKept: wish === null ? null : promise !== null && promise <= wish,
    slips,
    ...costs,
    suggestedSurcharge: Math.max(0, Math.ceil(costs.extraMoney)),
  };
  const leftWhy = plan.leftOver.find(({ id }) => isOfJob(job, id))?.reason;
  const unplanned = (difference?.pans ?? [])
    .filter(({ pan, change }) => (change === "new" || change === "planned again") && !isOfJob(job, pan))
    .map(({ pan }) => pan);
  return { ...figures, words: quoteWords(figures, { currency: day.currency ?? "EUR", leftWhy, unplanned, job }) };
}

/** Against the plan in force; where there is none the job is all there is to do. */
function extraCosts(
  day: DayFile,
  plan: PlanFile,
  difference: Difference | null,
  tickets: ReadonlySet<string>,
): Pick<Quote, "extraGasKWh" | "extraOvenMinutes" | "extraMoney"> {
  const { millis } = shopTime(day);
  const ovenMinutes = plan.loads.map((load) => (millis(load.doneAt) - millis(load.doorOpensAt)) / MINUTE);
  const extra = {
    gasKWh: difference?.gasKWh ?? plan.gas.kWh,
    ovenMinutes: difference?.ovenMinutes ?? ovenMinutes.reduce((sum, minutes) => sum + minutes, 0),
    money: difference?.money.total ?? plan.cost.total,
  };
  // Where nothing can be promised the job counts as late from its wish on, which is no cost of taking it.
  const own = plan.tickets.filter(({ ticket }) => tickets.has(ticket));
  const ownLate = own.reduce((sum, one) => sum + (one.lateMinutes / 60) * ticketRate(day, one.ticket), 0);
  return { extraGasKWh: extra.gasKWh, extraOvenMinutes: extra.ovenMinutes, extraMoney: extra.money - ownLate };
}

interface Told {
  readonly currency: string;
  readonly leftWhy: string | undefined;
  /** Pans of others that the plan in force does not know, or no longer knows as they are. */
  readonly unplanned: readonly string[];
  readonly job: Job;
}

function quoteWords(quote: Omit<Quote, "words">, { currency, leftWhy, unplanned, job }: Told): string[] {
  if (quote.earliestReadyAt === null || quote.promiseAt === null)
    return [
      `It does not get done within the day${leftWhy === undefined ? "" : `: ${leftWhy}`}. Do not promise it for today.`,
    ];
  const ready = clockText(quote.earliestReadyAt);
  const first = `Ready at ${ready} at the earliest; promise ${clockText(quote.promiseAt, quote.earliestReadyAt)}.`;
  const slips = quote.slips.length === 0 ? ["Nobody else slips."] : quote.slips.map(({ words }) => words);
  const cost = `It takes ${signed(quote.extraGasKWh, 1)} kWh of gas, ${signed(quote.extraOvenMinutes, 0)} min of the ovens, ${signed(quote.extraMoney, 2)} ${currency} in all.`;
  const mixed =
    unplanned.length === 0
      ? []
      : [
          `These figures also hold what the plan in force does not know yet: ${unplanned.join(", ")}. Plan the day anew, then ask again.`,
        ];
  return [first, ...wishWords(quote, job), ...slips, cost, ...mixed];
}

function wishWords({ wishAt, wishKept, earliestReadyAt }: Omit<Quote, "words">, job: Job): string[] {
  if (wishAt === null || wishKept !== false || earliestReadyAt === null) return [];
  const wish = clockText(wishAt, earliestReadyAt);
  return Date.parse(earliestReadyAt) <= Date.parse(wishAt)
    ? [`The wish for ${wish} leaves less than ${job.marginMinutes} min in hand.`]
    : [`The wish for ${wish} cannot be kept.`];
}

function signed(value: number, digits: number): string {
  const text = value.toFixed(digits);
  return value > 0 ? `+${text}` : text;
}
