/** Staffed time: each interval forward, none overlapping (in any order), and planning starts before the last one ends. */
import type { Check, Report, Shop } from "./check.ts";
import { isFar, isNear, swapDayMonth } from "./swapped-date.ts";

export const staffingCheck: Check = {
  needs: ["timeZone", "planFrom", "staffed", "nextOpen"],
  find: (shop, report) => {
    const { day, at } = shop;
    const intervals = day.staffed.map(({ from, to }, i) => ({ i, from, to, start: at(from), end: at(to) }));
    const known = intervals.flatMap((one) =>
      one.start === undefined || one.end === undefined ? [] : [{ ...one, start: one.start, end: one.end }],
    );
    for (const { i, from, to, start, end } of known) {
      if (end <= start) report.problem(["staffed", i, "to"], "interval-reversed", to, { from });
    }
    const sorted = known.filter(({ start, end }) => end > start).toSorted((a, b) => a.start - b.start);
    sorted.forEach((one, k) => {
      const before = sorted[k - 1];
      if (!before || before.end <= one.start) return;
      const words = { other: `the interval from ${before.from}`, to: before.to };
      report.problem(["staffed", one.i, "from"], "intervals-overlap", one.from, words);
    });
    const last = known.toSorted((a, b) => b.end - a.end)[0];
    if (last && known.length === intervals.length) checkEnds(shop, report, last);
  },
};

function checkEnds({ day, at }: Shop, report: Report, last: { readonly end: number; readonly to: string }): void {
  const from = at(day.planFrom);
  if (from !== undefined && from >= last.end) {
    const swapped = swapDayMonth(day.planFrom);
    const meant = swapped === undefined ? undefined : at(swapped);
    const slip =
      isFar(from, last.end) && isNear(meant, last.end)
        ? `Day and month swapped? ${swapped} would be before.`
        : undefined;
    report.problem(["planFrom"], "plan-from-too-late", day.planFrom, { end: last.to, slip });
  }
  const opens = at(day.nextOpen);
  if (opens !== undefined && opens < last.end) {
    report.problem(["nextOpen"], "next-open-too-early", day.nextOpen, { end: last.to });
  }
}
