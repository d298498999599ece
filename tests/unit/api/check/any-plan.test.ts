import fc from "fast-check";
import { expect, test } from "vitest";
import { checkPlan } from "../../../../api/check/check-plan.ts";
import type { PlanFile } from "../../../../api/contract/plan.ts";
import { planSchema } from "../../../../api/contract/plan.ts";
import { fixedPlan } from "./fixed-shop.ts";
import { mixedPlan } from "./mixed-shop.ts";

type Path = readonly (string | number)[];

/** Every leaf and every list entry of a plan, but only the first points of its curves, which are many. */
function placesIn(value: unknown, path: Path = []): Path[] {
  if (path.at(-2) === "curve" && Number(path.at(-1)) > 1) return [];
  if (Array.isArray(value))
    return value.flatMap((entry, index) => [[...path, index], ...placesIn(entry, [...path, index])]);
  if (typeof value !== "object" || value === null) return [path];
  return Object.entries(value).flatMap(([key, field]) => placesIn(field, [...path, key]));
}

const oddNumber = fc.oneof(
  fc.constantFrom(0, -1, 0.5, 1, 2, 3, 7, 1e-9, 1e9, 1e308, 20, 270),
  fc.double({ noNaN: true, noDefaultInfinity: true }),
  fc.integer({ min: -1000, max: 1000 }),
);
const oddInstant = fc.oneof(
  fc
    .date({ min: new Date("0001-01-01"), max: new Date("9999-12-31"), noInvalidDate: true })
    .map((date) => date.toISOString()),
  fc
    .integer({ min: -3000, max: 6000 })
    .map((minute) => new Date(Date.UTC(2026, 2, 27, 8, minute)).toISOString().replace("Z", "+00:00")),
);
const oddName = fc.oneof(
  fc.constantFrom("bake", "preheat", "clean burn", "planned", "pinned", "firing", "fired", "proven"),
  fc.constantFrom("K-201-A", "S-1", "A", "B", "gas-1", "box", "top", " ", "no reason"),
  fc.string({ maxLength: 12 }),
);
const oddValues = fc.record({ number: oddNumber, instant: oddInstant, name: oddName, isNull: fc.boolean() });

/** A value of the kind that stands there, or nothing where nothing may stand. */
function instead(value: unknown, odd: { number: number; instant: string; name: string; isNull: boolean }): unknown {
  if (value === null || typeof value === "boolean")
    return odd.isNull ? value : odd.number > 1 ? odd.instant : odd.number;
  if (typeof value === "number") return odd.number;
  return typeof value === "string" && /^\d{4}-/.test(value) ? odd.instant : odd.name;
}

interface Stroke {
  readonly place: number;
  readonly how: "set" | "drop" | "double";
  readonly odd: { readonly number: number; readonly instant: string; readonly name: string; readonly isNull: boolean };
}

const strokes: fc.Arbitrary<readonly Stroke[]> = fc.array(
  fc.record({ place: fc.nat(), how: fc.constantFrom("set", "set", "set", "drop", "double"), odd: oddValues }),
  { minLength: 1, maxLength: 4 },
);

/** Undefined where the plan no longer passes the plan schema. */
function struck(sound: PlanFile, list: readonly Stroke[]): PlanFile | undefined {
  const plan = structuredClone(sound);
  for (const { place, how, odd } of list) {
    const places = placesIn(plan);
    const path = places[place % places.length] ?? [];
    const key = path.at(-1) ?? "";
    const parent = path.slice(0, -1).reduce<unknown>((at, step) => Reflect.get(Object(at), step), plan);
    if (Array.isArray(parent) && how !== "set")
      parent.splice(Number(key), 1, ...(how === "drop" ? [] : [parent[Number(key)], parent[Number(key)]]));
    else Reflect.set(Object(parent), key, instead(Reflect.get(Object(parent), key), odd));
  }
  const parsed = planSchema.safeParse(plan);
  return parsed.success ? parsed.data : undefined;
}

test.each([
  ["a shop with burners", mixedPlan()],
  ["a shop with a fixed cycle", fixedPlan()],
])(
  "a plan of %s may say anything its schema allows: faults come back, nothing is thrown",
  (_shop, { day, plan }) => {
    let checked = 0;
    fc.assert(
      fc.property(strokes, (list) => {
        const odd = struck(plan, list);
        if (odd === undefined) return;
        checked += 1;
        for (const fault of checkPlan(day, odd, { savings: checked % 20 === 0 })) {
          expect(fault.message).not.toBe("");
          expect(fault.path).not.toBe("");
        }
      }),
      { seed: 20260327, numRuns: 500 },
    );
    expect(checked).toBeGreaterThan(150);
  },
  30_000,
);
