/** A date far from the plan's start that would be near with day and month the other way round. */
import type { Check, Report, Shop } from "./check.ts";
import type { Path } from "../../contract/problem.ts";

const DAY = 86_400_000;
const FAR_DAYS = 45;
const NEAR_DAYS = 21;

/** The same instant with day and month swapped; undefined where that is no other date. */
export function swapDayMonth(text: string): string | undefined {
  const [, year, month, day, rest] = /^(\d{4})-(\d\d)-(\d\d)(T.*)$/.exec(text) ?? [];
  return day === undefined || Number(day) > 12 || day === month ? undefined : `${year}-${day}-${month}${rest}`;
}

export function isFar(a: number, b: number): boolean {
  return Math.abs(a - b) > FAR_DAYS * DAY;
}

export function isNear(a: number | undefined, b: number): boolean {
  return a !== undefined && Math.abs(a - b) <= NEAR_DAYS * DAY;
}

/** A swapped date that changes the plan is refused; a pan that was ready long ago is only asked about. */
export const swappedDateCheck: Check = {
  needs: ["timeZone", "planFrom", "staffed"],
  find: (shop, report) => {
    const { day, at } = shop;
    const from = at(day.planFrom);
    if (from === undefined || day.staffed.every(({ to }) => (at(to) ?? Infinity) <= from)) return;
    day.staffed.forEach((interval, i) => {
      ask(shop, report.problem, from, ["staffed", i, "from"], interval.from);
      ask(shop, report.problem, from, ["staffed", i, "to"], interval.to);
    });
    if (day.nextOpen !== null) ask(shop, report.problem, from, ["nextOpen"], day.nextOpen);
    day.pans.forEach((pan, i) => {
      const late = (at(pan.readyAt) ?? from) > from;
      ask(shop, sayWhen(report, late), from, ["pans", i, "readyAt"], pan.readyAt);
      if (pan.promisedAt !== null) ask(shop, report.problem, from, ["pans", i, "promisedAt"], pan.promisedAt);
    });
  },
};

function sayWhen(report: Report, grave: boolean): Report["problem"] {
  return grave ? report.problem : report.warning;
}

function ask({ at }: Shop, say: Report["problem"], from: number, path: Path, text: string): void {
  const swapped = swapDayMonth(text);
  const instant = at(text);
  if (swapped === undefined || instant === undefined) return;
  if (!isFar(instant, from) || !isNear(at(swapped), from)) return;
  say(path, "day-month-swapped", text, { days: Math.round(Math.abs(instant - from) / DAY), swapped });
}
