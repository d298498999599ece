/** Figures of oven and shop that no plan could live with: doors that never open, pans that never cool, no clean burn. */
import type { Day } from "../../contract/day.ts";
import { most } from "../../contract/parts.ts";
import { dueCoats } from "./check.ts";
import type { Check, Shop } from "./check.ts";
import { fahrenheitSlip } from "./coat-windows.ts";

export const quantityCheck: Check = {
  needs: [],
  find: ({ day }, report) => {
    const pans = day.pans.reduce((sum, pan) => sum + pan.quantity, 0);
    if (pans > most.pans) report.problem(["pans"], "too-many-pans", pans, { pans, most: most.pans });
  },
};

export const areaOvenCheck: Check = {
  needs: [],
  find: ({ day }, report) => {
    day.ovens.forEach(({ space, cycle }, i) => {
      if (space.kind === "area" && cycle.kind === "thermal") {
        report.problem(["ovens", i, "cycle", "kind"], "area-needs-fixed", cycle.kind);
      }
    });
  },
};

/** With a fixed cycle cooling takes no time, so the figure does not count. */
export const handleCheck: Check = {
  needs: ["booth", "ambientC"],
  find: ({ day }, report) => {
    const predicts = day.ovens.some(({ cycle }) => cycle.kind === "thermal");
    if (!predicts || day.booth.handleAtC > day.ambientC) return;
    report.problem(["booth", "handleAtC"], "handle-below-room", day.booth.handleAtC, { ambient: day.ambientC });
  },
};

export const doorLimitCheck: Check = {
  needs: ["ambientC"],
  find: ({ day }, report) => {
    day.ovens.forEach(({ cycle }, i) => {
      if (cycle.kind === "fixed" || cycle.doorLimitC > day.ambientC) return;
      const path = ["ovens", i, "cycle", "doorLimitC"];
      report.problem(path, "door-limit-below-room", cycle.doorLimitC, { ambient: day.ambientC });
    });
  },
};

/** Refused where the day can need the burn, else told; told too where ovens with a fixed cycle burn by habit. */
export const cleanBurnCheck: Check = {
  needs: ["mixing", "ovens", "coatings", "pans"],
  find: (shop, report) => {
    const burn = shop.day.mixing.cleanBurn;
    if (!burn) return;
    // The burn is set to the oven's next step up.
    const highest = shop.day.ovens.map(({ cycle }) =>
      cycle.kind === "fixed"
        ? -Infinity
        : Math.floor(cycle.setPointMaxC / cycle.setPointStepC + 1e-6) * cycle.setPointStepC,
    );
    const most = Math.max(...highest);
    if (burn.setPointC <= most) return;
    const say = canBeNeeded(shop) && Number.isFinite(most) ? report.problem : report.warning;
    const numbers = {
      most: Number.isFinite(most) ? `${most} °C` : "what an oven with a fixed cycle cannot promise",
      slip: fahrenheitSlip(burn.setPointC, most + 0.1),
    };
    say(["mixing", "cleanBurn", "setPointC"], "clean-burn-out-of-reach", burn.setPointC, numbers);
  },
};

function canBeNeeded({ day }: Shop): boolean {
  const due = groupsDue(day);
  const stood = new Set([...due, ...day.ovens.flatMap((oven) => oven.lastGroups)]);
  const burn = day.mixing.cleanBurn;
  return burn !== null && burn.after.some((group) => stood.has(group)) && burn.before.some((group) => due.has(group));
}

function groupsDue(day: Day): Set<string> {
  return new Set(day.pans.flatMap((pan) => dueCoats(day, pan).map((coat) => coat.mixGroup)));
}
