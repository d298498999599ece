/** Loads held fixed: their oven, the order of their instants, and what a pinned one must obey. */
import type { DayHeldLoad, DayOven } from "../../contract/day.ts";
import type { Path } from "../../contract/problem.ts";
import type { Check, Report, Shop } from "./check.ts";
import { unknown } from "./ids.ts";

const MINUTE = 60_000;
const INSTANTS = ["doorOpensAt", "doorClosesAt", "burnerOffAt", "unloadAt", "doneAt"] as const;

export const heldOvenCheck: Check = {
  needs: ["ovens"],
  find: ({ day }, report) => {
    const ids = day.ovens.map(({ id }) => id);
    day.held.forEach((load, i) => {
      const oven = day.ovens.find(({ id }) => id === load.oven);
      if (!oven) unknown(report, ["held", i, "oven"], "oven", load.oven, ids);
      else checkBurner(report, load, oven, ["held", i]);
    });
  },
};

function checkBurner(report: Report, load: DayHeldLoad, { cycle }: DayOven, path: Path): void {
  if (cycle.kind === "fixed") return;
  for (const field of ["setPointC", "burnerOffAt"] as const) {
    if (load[field] !== null) continue;
    const expected = field === "setPointC" ? "a temperature in °C" : "an ISO 8601 date and time";
    report.problem([...path, field], "held-needs-burner", null, { field, expected });
  }
  if (load.state !== "pinned" || load.setPointC === null) return;
  const steps = load.setPointC / cycle.setPointStepC;
  if (load.setPointC <= cycle.setPointMaxC && Math.abs(steps - Math.round(steps)) < 1e-9) return;
  const numbers = { step: cycle.setPointStepC, most: cycle.setPointMaxC };
  report.problem([...path, "setPointC"], "held-set-point", load.setPointC, numbers);
}

export const heldOrderCheck: Check = {
  needs: ["timeZone"],
  find: ({ day, at }, report) => {
    day.held.forEach((load, i) => {
      let earlier: (typeof INSTANTS)[number] = "doorOpensAt";
      for (const field of INSTANTS) {
        const [instant, before] = [at(load[field]), at(load[earlier])];
        if (instant === undefined || before === undefined) continue;
        if (instant < before) {
          const words = { field, earlierField: earlier, earlier: load[earlier] ?? "" };
          report.problem(["held", i, field], "held-order", load[field], words);
        }
        earlier = field;
      }
    });
  },
};

export const heldOverlapCheck: Check = {
  needs: ["timeZone"],
  find: ({ day, at }, report) => {
    const timed = day.held.flatMap((load, i) => {
      const [opens, done] = [at(load.doorOpensAt), at(load.doneAt)];
      return opens === undefined || done === undefined ? [] : [{ load, i, opens, done }];
    });
    for (const oven of new Set(timed.map(({ load }) => load.oven))) {
      const sorted = timed
        .filter(({ load }) => load.oven === oven)
        .toSorted((a, b) => a.opens - b.opens || a.done - b.done);
      sorted.forEach((one, k) => {
        const before = sorted[k - 1];
        if (!before || before.done <= one.opens) return;
        const words = { other: before.load.id, until: before.load.doneAt };
        report.problem(["held", one.i, "doorOpensAt"], "held-overlap", one.load.doorOpensAt, words);
      });
    }
  },
};

/** Fired and firing loads are facts; a pinned one obeys all rules, of which these need no physics. */
export const pinnedCheck: Check = {
  needs: ["timeZone", "planFrom", "staffed", "ovens"],
  find: (shop, report) => {
    shop.day.held.forEach((load, i) => {
      const oven = shop.day.ovens.find(({ id }) => id === load.oven);
      if (load.state !== "pinned" || !oven) return;
      checkDurations(shop, report, load, oven, ["held", i]);
      checkStaff(shop, report, load, oven, ["held", i]);
      const [opens, from] = [shop.at(load.doorOpensAt), shop.at(shop.day.planFrom)];
      if (opens !== undefined && from !== undefined && opens < from) {
        const words = { planFrom: shop.day.planFrom };
        report.problem(["held", i, "doorOpensAt"], "held-before-start", load.doorOpensAt, words);
      }
      const [vents, inUse] = [
        opens === undefined ? undefined : opens - load.ventMinutes * MINUTE,
        shop.at(oven.outUntil),
      ];
      if (vents !== undefined && inUse !== undefined && vents < inUse) {
        const words = { oven: oven.id, until: oven.outUntil ?? "" };
        report.problem(["held", i, "doorOpensAt"], "held-oven-out", load.doorOpensAt, words);
      }
    });
  },
};

/** A clean burn and a preheat have no door work. */
function checkDurations(shop: Shop, report: Report, load: DayHeldLoad, { cycle }: DayOven, path: Path): void {
  const bake = load.kind === "bake";
  const rules = [
    { field: "doorClosesAt", after: load.doorOpensAt, minutes: bake ? cycle.loadMinutes : 0, what: "loading minutes" },
    { field: "doneAt", after: load.unloadAt, minutes: bake ? cycle.unloadMinutes : 0, what: "unloading minutes" },
  ] as const;
  for (const { field, after, minutes, what } of rules) {
    const [start, end] = [shop.at(after), shop.at(load[field])];
    if (start === undefined || end === undefined || end - start === minutes * MINUTE) continue;
    report.problem([...path, field], "held-durations", load[field], {
      field,
      what,
      right: shop.write(start + minutes * MINUTE),
    });
  }
}

function checkStaff(shop: Shop, report: Report, load: DayHeldLoad, oven: DayOven, path: Path): void {
  if (oven.attended) {
    tellUnstaffed(shop, report, load, path, ["doorOpensAt", "doneAt"], "the whole");
  } else {
    tellUnstaffed(shop, report, load, path, ["doorOpensAt", "doorClosesAt"], "the loading");
    tellUnstaffed(shop, report, load, path, ["unloadAt", "doneAt"], "the unloading");
  }
}

type Ends = readonly [from: "doorOpensAt" | "unloadAt", to: "doorClosesAt" | "doneAt"];

function tellUnstaffed(shop: Shop, report: Report, load: DayHeldLoad, path: Path, ends: Ends, what: string): void {
  const [from, to] = [shop.at(load[ends[0]]), shop.at(load[ends[1]])];
  if (from === undefined || to === undefined || from >= to) return;
  const inside = shop.day.staffed.some((interval) => {
    const [start, end] = [shop.at(interval.from), shop.at(interval.to)];
    return start !== undefined && end !== undefined && start <= from && to <= end;
  });
  if (!inside) report.problem([...path, ends[0]], "held-unstaffed", load[ends[0]], { what });
}
