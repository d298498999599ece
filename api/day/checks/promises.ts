/** Promises: after the pan is ready, one per ticket, and what a rush or a sprayed pan must state. */
import type { DayPan } from "../../contract/day.ts";
import { dueCoats } from "./check.ts";
import type { Check, Report, Shop } from "./check.ts";
import { isFar, isNear, swapDayMonth } from "./swapped-date.ts";

const MINUTE = 60_000;

export const promisesCheck: Check = {
  needs: ["timeZone", "planFrom"],
  find: (shop, report) => {
    const from = shop.at(shop.day.planFrom);
    shop.day.pans.forEach((pan, i) => {
      const ready = shop.at(pan.readyAt);
      const promised = shop.at(pan.promisedAt);
      if (promised === undefined) return;
      const path = ["pans", i, "promisedAt"];
      if (ready !== undefined && promised < ready && !pan.overdue) {
        const numbers = { readyAt: pan.readyAt, slip: swapSlip(shop, pan, promised, ready) };
        report.problem(path, "promise-before-ready", pan.promisedAt, numbers);
      } else if (from !== undefined && promised < from) {
        report.warning(path, "promise-in-past", pan.promisedAt, { planFrom: shop.day.planFrom });
      }
    });
  },
};

function swapSlip({ at }: Shop, pan: DayPan, promised: number, ready: number): string | undefined {
  const swapped = pan.promisedAt === null ? undefined : swapDayMonth(pan.promisedAt);
  const fits = swapped !== undefined && isFar(promised, ready) && isNear(at(swapped), ready);
  return fits ? `Day and month swapped? ${swapped} would be after.` : undefined;
}

export const ticketPromisesCheck: Check = {
  needs: ["timeZone"],
  find: ({ day, at }, report) => {
    const first = new Map<string, DayPan>();
    day.pans.forEach((pan, i) => {
      if (pan.promisedAt !== null && at(pan.promisedAt) === undefined) return;
      const other = first.get(pan.ticket);
      if (!other) first.set(pan.ticket, pan);
      else if (at(other.promisedAt) !== at(pan.promisedAt)) {
        const numbers = { ticket: pan.ticket, other: other.id, otherPromise: other.promisedAt ?? "no time" };
        report.problem(["pans", i, "promisedAt"], "promises-differ", pan.promisedAt, numbers);
      }
    });
  },
};

export const panStateCheck: Check = {
  needs: [],
  find: ({ day }, report) => {
    day.pans.forEach((pan, i) => {
      if (pan.priority === "rush" && pan.promisedAt === null) {
        report.problem(["pans", i, "promisedAt"], "rush-without-promise", pan.promisedAt);
      }
      if (pan.sprayed && pan.prepMinutes > 0) {
        report.problem(["pans", i, "prepMinutes"], "sprayed-with-prep", pan.prepMinutes);
      }
    });
  },
};

/** Spraying, flashing, soaking, loading, unloading and looking alone, without heating and queues: a floor, so only a warning. */
export const promiseReachCheck: Check = {
  needs: ["timeZone", "planFrom", "coatings", "ovens"],
  find: (shop, report) => {
    const from = shop.at(shop.day.planFrom);
    shop.day.pans.forEach((pan, i) => {
      const ready = shop.at(pan.readyAt);
      const promised = shop.at(pan.promisedAt);
      if (from === undefined || ready === undefined || promised === undefined || promised < Math.max(ready, from))
        return;
      const minutes = leastMinutes(shop, pan);
      const earliest = Math.max(ready, from) + minutes * MINUTE;
      if (earliest > promised) tellReach(shop, report, i, minutes, earliest);
    });
  },
};

function tellReach(shop: Shop, report: Report, i: number, minutes: number, earliest: number): void {
  const numbers = { minutes: Math.ceil(minutes), earliest: shop.write(earliest) };
  report.warning(["pans", i, "promisedAt"], "promise-out-of-reach", shop.day.pans[i]?.promisedAt, numbers);
}

function leastMinutes({ day }: Shop, pan: DayPan): number {
  const held = new Set(day.held.flatMap((load) => load.pans.filter(({ id }) => id === pan.id).map(({ coat }) => coat)));
  const door = Math.min(...day.ovens.map(({ cycle }) => cycle.loadMinutes + cycle.unloadMinutes));
  const coats = dueCoats(day, pan).map((coat, k) => {
    if (held.has(pan.nextCoat + k)) return 0;
    const spray = k === 0 && pan.sprayed ? 0 : coat.sprayMinutes + coat.flashMinutes;
    const closed = Math.min(coat.bake.soakLeastMinutes ?? Infinity, coat.bake.cycleMinutes ?? Infinity);
    return spray + door + (Number.isFinite(closed) ? closed : 0) + coat.inspectMinutes;
  });
  return pan.prepMinutes + coats.reduce((sum, minutes) => sum + minutes, 0) + day.finishMinutes;
}

/** Told rather than refused, so that a re-plan can go on: the pan is left over until it is sprayed again. */
export const waitCheck: Check = {
  needs: ["timeZone", "planFrom", "coatings"],
  find: ({ day, at }, report) => {
    const from = at(day.planFrom);
    day.pans.forEach((pan, i) => {
      const ready = at(pan.readyAt);
      const coat = dueCoats(day, pan)[0];
      if (!coat || coat.maxWaitMinutes === null || ready === undefined || from === undefined) return;
      if (!pan.sprayed && coat.sprayMinutes > 0) return;
      if (day.held.some((load) => load.pans.some(({ id }) => id === pan.id))) return;
      if (ready + (pan.prepMinutes + coat.maxWaitMinutes) * MINUTE >= from) return;
      const numbers = {
        coat: coat.name,
        waitMinutes: coat.maxWaitMinutes,
        earliest: `${coat.maxWaitMinutes} min before ${day.planFrom}`,
      };
      report.warning(["pans", i, "readyAt"], "waited-too-long", pan.readyAt, numbers);
    });
  },
};
