/** Pans in held loads, and on a re-plan in the plan in force: they exist, stand somewhere, and are baked once. */
import type { DayHeldLoad, DayOven, DayPan } from "../../contract/day.ts";
import type { Path } from "../../contract/problem.ts";
import type { Check, Report } from "./check.ts";
import { unknown } from "./ids.ts";

type HeldPan = DayHeldLoad["pans"][number];

export const heldPansCheck: Check = {
  needs: ["pans", "coatings"],
  find: ({ day }, report) => {
    const ids = day.pans.map(({ id }) => id);
    day.held.forEach((load, i) => {
      if (load.kind !== "bake" && load.pans.length > 0) {
        report.problem(["held", i, "pans"], "held-not-empty", load.pans, { kind: load.kind });
      }
      load.pans.forEach((held, k) => {
        const path = ["held", i, "pans", k];
        const pan = day.pans.find(({ id }) => id === held.id);
        if (!pan) return unknown(report, [...path, "id"], "pan", held.id, ids);
        checkItem(report, held, pan, path);
        const coats = day.coatings.find(({ id }) => id === pan.coating)?.coats.length;
        if (coats !== undefined) checkCoat(report, held, load.state === "pinned" ? pan.nextCoat : 1, coats, path);
      });
    });
  },
};

function checkItem(report: Report, { id, item }: { id: string; item: number }, pan: DayPan, path: Path): void {
  if (item > pan.quantity) report.problem([...path, "item"], "held-item-unknown", item, { id, quantity: pan.quantity });
}

function checkCoat(report: Report, { id, coat }: HeldPan, first: number, last: number, path: Path): void {
  if (coat < first || coat > last) report.problem([...path, "coat"], "held-coat-not-due", coat, { id, first, last });
}

export const heldTwiceCheck: Check = {
  needs: [],
  find: ({ day }, report) => {
    const first = new Map<string, string>();
    day.held.forEach((load, i) => {
      load.pans.forEach(({ id, item, coat }, k) => {
        const key = JSON.stringify([id, item, coat]);
        const earlier = first.get(key);
        if (earlier === undefined) first.set(key, load.id);
        else report.problem(["held", i, "pans", k, "coat"], "held-pan-twice", id, { item, coat, first: earlier });
      });
    });
  },
};

export const heldPlacesCheck: Check = {
  needs: ["ovens"],
  find: ({ day }, report) => {
    day.held.forEach((load, i) => {
      const oven = day.ovens.find(({ id }) => id === load.oven);
      if (oven) load.pans.forEach((held, k) => checkPlace(report, held, oven, ["held", i, "pans", k]));
    });
  },
};

function checkPlace(report: Report, held: HeldPan, { space }: DayOven, path: Path): void {
  const { id } = held;
  if (space.kind === "area") {
    if (held.shelf !== null)
      report.problem([...path, "shelf"], "held-not-placed", held.shelf, {
        id,
        expected: "null: this oven has no shelves",
      });
    return;
  }
  const shelves = space.shelves.map((shelf) => shelf.id);
  if (held.shelf === null)
    report.problem([...path, "shelf"], "held-not-placed", null, { id, expected: `one of ${shelves.join(", ")}` });
  else if (!shelves.includes(held.shelf)) unknown(report, [...path, "shelf"], "shelf", held.shelf, shelves);
  for (const field of ["xCm", "yCm"] as const) {
    if (held[field] === null)
      report.problem([...path, field], "held-not-placed", null, { id, expected: "centimetres" });
  }
}

/** A pan withdrawn since then counts as dropped, so it is told, not refused. */
export const inForceCheck: Check = {
  needs: ["pans"],
  find: ({ day }, report) => {
    const pans = new Map(day.pans.map((pan) => [pan.id, pan]));
    day.inForce.forEach((entry, i) => {
      const pan = pans.get(entry.id);
      if (pan) checkItem(report, entry, pan, ["inForce", i]);
      else report.warning(["inForce", i, "id"], "unknown-id", entry.id, { what: "pan", known: "the pans of this day" });
    });
  },
};
