/** The arrows between the rooms: who may import whom, and which package where. DEVELOPERS.md "Rooms and arrows" says why. */
import { readdirSync, readFileSync } from "node:fs";
import { join, normalize, relative, resolve } from "node:path";
import { describe, expect, it } from "vitest";

const root = resolve(import.meta.dirname, "..");

interface Arrow {
  readonly from: string;
  readonly to: string;
  readonly typeOnly: boolean;
}

/** Every import of a source text: relative ones resolved to project paths, packages by name. */
function arrowsOf(file: string, text: string): Arrow[] {
  const statements = text.matchAll(/(?:^|\n)\s*(import|export)\s+(type\s)?([^;]*?\sfrom\s+)?["']([^"']+)["']/g);
  const dynamic = text.matchAll(/\bimport\(\s*["']([^"']+)["']\s*\)/g);
  const resolved = (target: string): string => (target.startsWith(".") ? normalize(join(file, "..", target)) : target);
  return [
    ...[...statements].map(([, , type, , target]) => ({
      from: file,
      to: resolved(target!),
      typeOnly: type !== undefined,
    })),
    ...[...dynamic].map(([, target]) => ({ from: file, to: resolved(target!), typeOnly: false })),
  ];
}

/** Why an arrow is forbidden, or undefined when it is allowed. */
function forbidden({ from, to, typeOnly }: Arrow): string | undefined {
  const isPackage = !/^(solver|api|web|tests|fixtures)\//.test(to) && !to.startsWith("..");
  if (!from.startsWith("tests/") && /^(tests|fixtures)\//.test(to))
    return "the product never imports tests or fixtures";
  if (from.startsWith("solver/")) {
    if (isPackage)
      return to === "javascript-lp-solver" && from === "solver/lp/lp.ts"
        ? undefined
        : "the solver is pure: only solver/lp/lp.ts knows the LP library";
    return to.startsWith("solver/") ? undefined : "the solver imports only itself";
  }
  if (from.startsWith("api/check/")) {
    if (isPackage) return "the checker needs no package";
    if (to.startsWith("api/check/")) return undefined;
    return to.startsWith("api/contract/") && typeOnly ? undefined : "the checker shares only the types of the contract";
  }
  if (from === "api/contract/words.ts" || from === "api/contract/units.ts")
    return "words and units stand alone: the page imports them";
  if (from.startsWith("api/contract/")) {
    if (isPackage) return to === "zod" ? undefined : "the contract needs only zod";
    return to.startsWith("api/contract/") ? undefined : "the contract imports only itself";
  }
  if (from.startsWith("api/")) {
    if (to.startsWith("web/")) return "the service does not import the page";
    if (to.startsWith("solver/"))
      return to === "solver/index.ts" ? undefined : "the service enters the solver by its door, solver/index.ts";
    if (to === "libsql")
      return from === "api/store/database.ts" ? undefined : "only api/store/database.ts knows the SQLite driver";
    return undefined;
  }
  if (from.startsWith("web/")) {
    if (to.startsWith("web/") || isPackage) return undefined;
    if (to === "api/contract/words.ts" || to === "api/contract/units.ts") return undefined;
    return to.startsWith("api/contract/") && typeOnly
      ? undefined
      : "the page takes types from the contract, values only from words.ts and units.ts";
  }
  return undefined;
}

function sources(): string[] {
  return ["solver", "api", "web"].flatMap((room) =>
    readdirSync(join(root, room), { recursive: true, encoding: "utf8" })
      .filter((file) => /\.tsx?$/.test(file) && !file.includes("node_modules") && !file.startsWith("dist"))
      .map((file) => `${room}/${file}`),
  );
}

describe("the arrows between the rooms", () => {
  it("all point inwards", () => {
    const files = sources();
    expect(files.length).toBeGreaterThan(20);
    const broken = files
      .flatMap((file) => arrowsOf(file, readFileSync(join(root, file), "utf8")))
      .flatMap((arrow) => {
        const why = forbidden(arrow);
        return why === undefined ? [] : [`${relative(root, resolve(root, arrow.from))} -> ${arrow.to}: ${why}`];
      });
    expect(broken).toEqual([]);
  });

  it.each([
    ["solver/plan.ts", 'import { z } from "zod";'],
    ["solver/plan.ts", 'import { app } from "../api/app.ts";'],
    ["solver/plan.ts", 'import lp from "javascript-lp-solver";'],
    ["api/check/cost.ts", 'import { dayModel } from "../../solver/day/day-model.ts";'],
    ["api/check/cost.ts", 'import { daySchema } from "../contract/day.ts";'],
    ["api/plans/planner.ts", 'import { dayModel } from "../../solver/day/day-model.ts";'],
    ["api/contract/words.ts", 'import { z } from "zod";'],
    ["api/pans/rows.ts", 'import Database from "libsql";'],
    ["web/day/day.tsx", 'import { daySchema } from "../../api/contract/day.ts";'],
    ["web/main.tsx", 'const late = await import("../solver/index.ts");'],
    ["api/app.ts", 'import days from "../tests/help/days.ts";'],
  ])("goes red for %s with %s", (file, text) => {
    expect(arrowsOf(file, text).map(forbidden)).not.toContain(undefined);
  });

  it.each([
    ["solver/lp/lp.ts", 'import lp from "javascript-lp-solver";'],
    ["api/check/cost.ts", 'import type { Day } from "../contract/day.ts";'],
    [
      "web/main.tsx",
      'import type { PlanFile } from "../api/contract/plan.ts";\nimport { toFahrenheit } from "../api/contract/units.ts";',
    ],
  ])("allows %s with %s", (file, text) => {
    const arrows = arrowsOf(file, text);
    expect(arrows.length).toBeGreaterThan(0);
    expect(arrows.map(forbidden).every((why) => why === undefined)).toBe(true);
  });
});
