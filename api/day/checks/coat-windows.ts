/** A coat's window must be whole, the right way round, wider than the guards, and within reach of an oven. */
import type { DayCoat, DayOven } from "../../contract/day.ts";
import { fahrenheitToCelsius } from "../../contract/units.ts";
import { coatsOf } from "./check.ts";
import type { Check, CoatAt, Report, Shop } from "./check.ts";
import { hottestAir, ovensFor, spotsOf } from "./spots.ts";
import type { Hottest, Thermal } from "./spots.ts";

interface Window {
  readonly metalLowC: number;
  readonly metalHighC: number;
  readonly soakLeastMinutes: number;
  readonly soakMostMinutes: number;
}

/** What the coat says of itself. */
export const windowCheck: Check = {
  needs: [],
  find: ({ day }, report) => {
    for (const { coat, path } of coatsOf(day)) {
      const { metalLowC: low, metalHighC: high, soakLeastMinutes: least, soakMostMinutes: most } = coat.bake;
      const figures = { metalLowC: low, metalHighC: high, soakLeastMinutes: least, soakMostMinutes: most };
      const lacking = Object.entries(figures).filter(([, value]) => value === null);
      if (lacking.length > 0 && lacking.length < 4) {
        for (const [field] of lacking)
          report.problem([...path, "bake", field], "window-incomplete", null, { lacking: field });
      }
      if (low !== null && high !== null && low > high)
        report.problem([...path, "bake", "metalHighC"], "window-reversed", high, { low });
      if (least !== null && most !== null && least > most) {
        report.problem([...path, "bake", "soakMostMinutes"], "soak-reversed", most, { least });
      }
    }
  },
};

/** What the ovens can do for it. */
export const windowReachCheck: Check = {
  needs: ["ovens", "ambientC"],
  find: (shop, report) => {
    for (const at of coatsOf(shop.day)) {
      const ovens = ovensFor(shop.day, at.coat);
      const window = wholeWindow(at.coat);
      if (ovens.length === 0) tellNoOven(shop, report, at);
      else if (window && ovens.every(({ cycle }) => cycle.kind === "thermal"))
        tellReach(shop, report, at, window, ovens);
    }
  },
};

function wholeWindow({ bake }: DayCoat): Window | undefined {
  const { metalLowC, metalHighC, soakLeastMinutes, soakMostMinutes } = bake;
  if (metalLowC === null || metalHighC === null || soakLeastMinutes === null || soakMostMinutes === null)
    return undefined;
  return metalLowC > metalHighC ? undefined : { metalLowC, metalHighC, soakLeastMinutes, soakMostMinutes };
}

function tellNoOven({ day }: Shop, report: Report, { coat, path }: CoatAt): void {
  const allowed = day.ovens.filter(({ id }) => coat.ovens === null || coat.ovens.includes(id));
  if (allowed.length === 0) return;
  const fixed = allowed.every(({ cycle }) => cycle.kind === "fixed");
  const field = fixed ? "cycleMinutes" : "metalLowC";
  const why = fixed
    ? "every oven it may go into has a fixed cycle, which needs bake.cycleMinutes"
    : "every oven it may go into predicts metal temperatures, which needs the metal window";
  report.problem([...path, "bake", field], "coat-without-oven", null, {
    why,
    expected: fixed ? "whole minutes" : "the four figures of the window",
  });
}

function tellReach(shop: Shop, report: Report, { path }: CoatAt, window: Window, ovens: readonly DayOven[]): void {
  const spots = spotsOf(ovens).flatMap((spot) => {
    const { cycle } = spot.oven;
    return cycle.kind === "thermal"
      ? [{ cycle, air: hottestAir(cycle, spot.shelf?.offsetC ?? 0, shop.day.ambientC) }]
      : [];
  });
  const guard = Math.min(...spots.map(({ cycle }) => cycle.guardC));
  const { metalLowC: low, metalHighC: high } = window;
  if (high - low <= 2 * guard) {
    report.problem([...path, "bake", "metalHighC"], "window-too-narrow", high, { low, guard, needed: low + 2 * guard });
  }
  if (spots.some(({ cycle, air }) => air.airC > low + cycle.guardC)) return;
  const best = spots.toSorted((a, b) => margin(b) - margin(a))[0];
  if (!best) return;
  const numbers = {
    needed: low + best.cycle.guardC,
    hottest: best.air.airC,
    binds:
      best.air.binds === "burner"
        ? "more than that the burner cannot hold"
        : "its highest set-point and its hottest shelf",
    most: margin(best),
    slip: fahrenheitSlip(low, margin(best)),
  };
  report.problem([...path, "bake", "metalLowC"], "window-out-of-reach", low, numbers);
}

function margin({ cycle, air }: { readonly cycle: Thermal; readonly air: Hottest }): number {
  return air.airC - cycle.guardC;
}

/** "572 °F is 300 °C" where that reading would do; undefined where it would not. */
export function fahrenheitSlip(seen: number, mostC: number, leastC = 40): string | undefined {
  const celsius = Math.round(fahrenheitToCelsius(seen) * 10) / 10;
  return celsius >= leastC && celsius < mostC ? `${seen} °F is ${celsius} °C: use that?` : undefined;
}
