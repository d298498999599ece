/** What a rush job costs and when it can be promised, read off the plan that takes it in. */
import type { DayFile } from "../contract/day.ts";
import type { PlanFile } from "../contract/plan.ts";
import type { Difference, Quote } from "../contract/searching.ts";
import { MINUTE, shopTime } from "../shop/instants.ts";
import { clockText } from "./difference-words.ts";
import type { Extra } from "./searches.ts";

const promiseStepMinutes = 5;

export function quoteOf(day: DayFile, plan: PlanFile, extra: Extra, difference: Difference | null): Quote | null {
  if (extra.quote === null) return null;
  const time = shopTime(day);
  const tickets = new Set(extra.quote.pans.map((pan) => pan.ticket ?? pan.id));
  const own = plan.tickets.filter(({ ticket }) => tickets.has(ticket));
  const left = plan.leftOver.filter(({ id }) =>
    extra.quote?.pans.some((pan) => id === pan.id || id.startsWith(`${pan.id}.`)),
  );
  const ready =
    left.length > 0 || own.length === 0 ? null : Math.max(...own.map(({ readyAt }) => time.millis(readyAt)));
  const wish = extra.quote.pans.flatMap(({ promisedAt }) => promisedAt ?? [])[0];
  const wishAt = wish === undefined ? null : time.write(time.millis(wish));
  const wishKept = wish === undefined ? null : ready !== null && ready <= time.millis(wish);
  const promise =
    ready === null
      ? null
      : promiseFor(
          ready,
          extra.quote.marginMinutes,
          wishKept === true && wish !== undefined ? time.millis(wish) : null,
        );
  const slips = (difference?.tickets ?? [])
    .filter(({ ticket, minutes }) => !tickets.has(ticket) && (minutes ?? 0) > 0)
    .map(({ ticket, minutes, lateMinutes, words }) => ({
      ticket,
      minutes: minutes ?? 0,
      lateMinutes: lateMinutes ?? 0,
      words,
    }));
  const costs = extraCosts(plan, difference, own, time, day);
  const figures = {
    earliestReadyAt: ready === null ? null : time.write(ready),
    promiseAt: promise === null ? null : time.write(promise),
    wishAt,
    wishKept,
    slips,
    ...costs,
    suggestedSurcharge: Math.max(0, Math.ceil(costs.extraMoney)),
  };
  return { ...figures, words: quoteWords(figures, day.currency ?? "EUR", left[0]?.reason) };
}

/** A margin on top, then up to the next five minutes; a wish that leaves at least the margin is simply promised. */
function promiseFor(ready: number, marginMinutes: number, wish: number | null): number {
  const step = promiseStepMinutes * MINUTE;
  const safe = Math.ceil((ready + marginMinutes * MINUTE) / step) * step;
  return wish !== null && wish >= safe ? wish : safe;
}

function extraCosts(
  plan: PlanFile,
  difference: Difference | null,
  own: PlanFile["tickets"],
  time: ReturnType<typeof shopTime>,
  day: DayFile,
): Pick<Quote, "extraGasKWh" | "extraOvenMinutes" | "extraMoney"> {
  if (difference === null) {
    const minutes = plan.loads.reduce(
      (sum, load) => sum + (time.millis(load.doneAt) - time.millis(load.doorOpensAt)) / MINUTE,
      0,
    );
    return {
      extraGasKWh: plan.gas.kWh,
      extraOvenMinutes: minutes,
      extraMoney: plan.cost.total - ownLateness(day, own),
    };
  }
  const { gasKWh, ovenMinutes, money } = difference;
  return { extraGasKWh: gasKWh, extraOvenMinutes: ovenMinutes, extraMoney: money.total - ownLateness(day, own) };
}

/** The job's lateness against a wish, or against "at once", is no cost of taking it. */
function ownLateness(day: DayFile, own: PlanFile["tickets"]): number {
  const { latePerPanHour = 0, rushLatePerPanHour = latePerPanHour } = day.prices ?? {};
  return own.reduce((sum, { ticket, lateMinutes }) => {
    const pans = day.pans.filter((pan) => (pan.ticket ?? pan.id) === ticket);
    return sum + pans.reduce((more, pan) => more + (pan.latePerHour ?? rushLatePerPanHour) * (lateMinutes / 60), 0);
  }, 0);
}

function quoteWords(quote: Omit<Quote, "words">, currency: string, leftWhy: string | undefined): string[] {
  if (quote.earliestReadyAt === null || quote.promiseAt === null)
    return [
      `It does not get done within the day${leftWhy === undefined ? "" : `: ${leftWhy}`}. Do not promise it for today.`,
    ];
  const ready = clockText(quote.earliestReadyAt);
  const first = `Ready at ${ready} at the earliest; promise ${clockText(quote.promiseAt, quote.earliestReadyAt)}.`;
  const wish =
    quote.wishKept === false && quote.wishAt !== null
      ? [`The wish for ${clockText(quote.wishAt, quote.earliestReadyAt)} cannot be kept.`]
      : [];
  const slips = quote.slips.length === 0 ? ["Nobody else slips."] : quote.slips.map(({ words }) => words);
  const cost = `It takes ${signed(quote.extraGasKWh, 1)} kWh of gas, ${signed(quote.extraOvenMinutes, 0)} min of the ovens, ${signed(quote.extraMoney, 2)} ${currency} in all.`;
  return [first, ...wish, ...slips, cost];
}

function signed(value: number, digits: number): string {
  const text = value.toFixed(digits);
  return value > 0 ? `+${text}` : text;
}
