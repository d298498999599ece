/** Every id once, and every id that is named exists. */
import type { Day } from "../../contract/day.ts";
import type { Path } from "../../contract/problem.ts";
import { nearest } from "../nearest.ts";
import { coatsOf } from "./check.ts";
import type { Check, Report } from "./check.ts";

export const duplicateIdCheck: Check = {
  needs: [],
  find: ({ day }, report) => {
    const newLine = "Give the second its own id; several pans of one customer share a ticket, alike pieces a quantity.";
    once(report, "pan", ["pans"], day.pans, newLine);
    once(report, "coating", ["coatings"], day.coatings);
    once(report, "oven", ["ovens"], day.ovens);
    once(report, "load", ["held"], day.held);
    day.ovens.forEach(({ space }, i) => {
      if (space.kind === "shelves") once(report, "shelf", ["ovens", i, "space", "shelves"], space.shelves);
    });
  },
};

function once(
  report: Report,
  what: string,
  path: Path,
  list: readonly { readonly id: string }[],
  wayOut?: string,
): void {
  const first = new Map<string, number>();
  list.forEach(({ id }, i) => {
    const earlier = first.get(id);
    if (earlier === undefined) first.set(id, i);
    else report.problem([...path, i, "id"], "duplicate-id", id, { what, first: `${path.at(-1)}[${earlier}]`, wayOut });
  });
}

export const panCoatingCheck: Check = {
  needs: ["coatings"],
  find: ({ day }, report) => {
    const coatings = new Map(day.coatings.toReversed().map((coating) => [coating.id, coating.coats.length]));
    day.pans.forEach((pan, i) => {
      const coats = coatings.get(pan.coating);
      if (coats === undefined) unknown(report, ["pans", i, "coating"], "coating", pan.coating, [...coatings.keys()]);
      else if (pan.nextCoat > coats) {
        report.problem(["pans", i, "nextCoat"], "next-coat-beyond", pan.nextCoat, { coating: pan.coating, coats });
      }
    });
  },
};

export const panMaterialCheck: Check = {
  needs: ["materials"],
  find: ({ day }, report) => {
    const materials = Object.keys(day.materials);
    const known = new Set(materials);
    day.pans.forEach(({ material }, i) => {
      if (!known.has(material)) unknown(report, ["pans", i, "material"], "material", material, materials);
    });
  },
};

export const coatOvensCheck: Check = {
  needs: ["ovens"],
  find: ({ day }, report) => {
    const ids = day.ovens.map(({ id }) => id);
    for (const { coat, path } of coatsOf(day)) {
      coat.ovens?.forEach((id, k) => {
        if (!ids.includes(id)) unknown(report, [...path, "ovens", k], "oven", id, ids);
      });
    }
  },
};

/** A rule of the shop may name a group that is not sprayed today: told once, not refused. */
export const groupsCheck: Check = {
  needs: ["coatings"],
  find: ({ day }, report) => {
    const known = [...new Set(coatsOf(day).map(({ coat }) => coat.mixGroup))];
    const told = new Set(known);
    for (const { path, group } of groupsNamed(day)) {
      if (told.has(group)) continue;
      told.add(group);
      report.warning(path, "unknown-group", group, { known: known.join(", "), nearest: nearest(group, known) });
    }
  },
};

function groupsNamed({ mixing, ovens }: Day): { readonly path: Path; readonly group: string }[] {
  const at = (path: Path, groups: readonly string[]) => groups.map((group, i) => ({ path: [...path, i], group }));
  return [
    ...mixing.neverTogether.flatMap((pair, i) => at(["mixing", "neverTogether", i], pair)),
    ...at(["mixing", "cleanBurn", "after"], mixing.cleanBurn?.after ?? []),
    ...at(["mixing", "cleanBurn", "before"], mixing.cleanBurn?.before ?? []),
    ...ovens.flatMap((oven, i) => at(["ovens", i, "lastGroups"], oven.lastGroups)),
  ];
}

export function unknown(report: Report, path: Path, what: string, seen: string, known: readonly string[]): void {
  report.problem(path, "unknown-id", seen, { what, known: listed(known), nearest: nearest(seen, known) });
}

function listed(ids: readonly string[]): string {
  if (ids.length === 0) return "none known";
  return ids.length <= 12 ? ids.join(", ") : `${ids.slice(0, 12).join(", ")} and ${ids.length - 12} more`;
}
