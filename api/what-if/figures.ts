/** What a plan comes to, and how far two plans of the same shop lie apart, in figures and in sentences. */
import type { DayFile } from "../contract/day.ts";
import type { PlanFile } from "../contract/plan.ts";
import type { Figures, FiguresDifference } from "../contract/what-if.ts";
import { MINUTE, shopTime, staffedBetween } from "../shop/instants.ts";
import type { Stand } from "../shop/stand.ts";

type Standing = Pick<Stand, "day" | "asOf" | "onHold">;

export function figuresOf(plan: PlanFile, { day, asOf, onHold }: Standing): Figures {
  const time = shopTime(day);
  const finish = plan.loads.length === 0 ? null : Math.max(...plan.loads.map(({ doneAt }) => time.millis(doneAt)));
  const late = plan.tickets.flatMap(({ ticket, readyAt, promisedAt }) => {
    const minutes = promisedAt === null ? 0 : (time.millis(readyAt) - time.millis(promisedAt)) / MINUTE;
    return minutes > 0 ? [{ minutes, pans: pansOf(day, ticket) }] : [];
  });
  return {
    cost: plan.cost.total,
    gasKWh: plan.gas.kWh,
    gasMoney: plan.cost.gas,
    crewMinutes: finish === null ? 0 : staffedBetween(day, asOf, finish) / MINUTE,
    crewMoney: plan.cost.crew,
    lateTickets: late.length,
    latePanMinutes: late.reduce((sum, { minutes, pans }) => sum + minutes * pans, 0),
    lateMoney: plan.cost.late,
    leftOverPans: plan.leftOver.length + onHold.length,
    leftOverMoney: plan.cost.leftOver,
    firings: plan.loads.filter(({ state }) => state !== "fired").length,
    finishAt: finish === null ? null : time.write(finish),
  };
}

function pansOf(day: DayFile, ticket: string): number {
  const pans = day.pans.filter((pan) => (pan.ticket ?? pan.id) === ticket);
  return pans.reduce((sum, { quantity }) => sum + (quantity ?? 1), 0);
}

export function figuresApart(base: Figures, other: Figures): FiguresDifference {
  const finishes = [base.finishAt, other.finishAt].map((at) => (at === null ? null : Date.parse(at)));
  const [was, becomes] = finishes;
  return {
    cost: other.cost - base.cost,
    gasKWh: other.gasKWh - base.gasKWh,
    gasMoney: other.gasMoney - base.gasMoney,
    crewMinutes: other.crewMinutes - base.crewMinutes,
    crewMoney: other.crewMoney - base.crewMoney,
    lateTickets: other.lateTickets - base.lateTickets,
    latePanMinutes: other.latePanMinutes - base.latePanMinutes,
    lateMoney: other.lateMoney - base.lateMoney,
    leftOverPans: other.leftOverPans - base.leftOverPans,
    leftOverMoney: other.leftOverMoney - base.leftOverMoney,
    firings: other.firings - base.firings,
    finishMinutes: typeof was === "number" && typeof becomes === "number" ? (becomes - was) / MINUTE : null,
  };
}

/** The difference in sentences, the money first. */
export function apartWords(apart: FiguresDifference, currency: string): string[] {
  const money =
    Math.abs(apart.cost) < 0.005
      ? "Costs the same"
      : `Costs ${amount(apart.cost)} ${currency} ${moreOrLess(apart.cost)}`;
  const parts = [
    ["gas", apart.gasMoney],
    ["crew", apart.crewMoney],
    ["lateness", apart.lateMoney],
    ["left over", apart.leftOverMoney],
  ] as const;
  const told = parts.filter(([, value]) => Math.abs(value) >= 0.005).map(([what, value]) => `${what} ${signed(value)}`);
  const words = [`${money}${told.length === 0 ? "" : `: ${told.join(", ")}`}.`];
  if (Math.abs(apart.gasKWh) >= 0.05)
    words.push(`Burns ${Math.abs(apart.gasKWh).toFixed(1)} kWh ${moreOrLess(apart.gasKWh)}.`);
  if (apart.finishMinutes !== null && Math.round(apart.finishMinutes) !== 0)
    words.push(
      `The last load is done ${Math.abs(Math.round(apart.finishMinutes))} min ${apart.finishMinutes > 0 ? "later" : "sooner"}.`,
    );
  if (apart.lateTickets !== 0) words.push(`${counted(apart.lateTickets, "ticket")} late.`);
  else if (Math.abs(apart.latePanMinutes) >= 1)
    words.push(
      `The same tickets are late, ${Math.abs(Math.round(apart.latePanMinutes))} pan minutes ${moreOrLess(apart.latePanMinutes)}.`,
    );
  if (apart.leftOverPans !== 0) words.push(`${counted(apart.leftOverPans, "pan")} left over.`);
  return words;
}

const moreOrLess = (value: number): string => (value > 0 ? "more" : "less");
const amount = (value: number): string => Math.abs(value).toFixed(2);
const signed = (value: number): string => `${value > 0 ? "+" : "−"}${amount(value)}`;

function counted(difference: number, what: string): string {
  const count = Math.abs(difference);
  return `${count} ${what}${count === 1 ? "" : "s"} ${difference > 0 ? "more" : "fewer"}`;
}
