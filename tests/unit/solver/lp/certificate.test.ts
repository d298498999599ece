import { describe, expect, it } from "vitest";
import { dualBound, improvesForEver, isFeasible, provesInfeasible } from "../../../../solver/lp/certificate.ts";
import { boxOf } from "../../../../solver/lp/model.ts";
import type { LinearModel } from "../../../../solver/lp/model.ts";
import { relax } from "../../../../solver/lp/relaxation.ts";
import type { Outcome, Tableau } from "../../../../solver/lp/tableau.ts";

/** Least 2a + 3b with a + b ≥ 4, a ≤ 3: the optimum is 9 at (3, 1), the row's dual 3. */
const model: LinearModel = {
  sense: "min",
  columns: [{ cost: 2, high: 3 }, { cost: 3 }],
  rows: [{ kind: ">=", rhs: 4, columns: [0, 1], values: [1, 1] }],
};
const box = boxOf(model);

describe("bounds from multipliers", () => {
  it("proves 9 with the right multiplier and less with others", () => {
    expect(dualBound(model, box, [3])).toBeCloseTo(9, 12);
    expect(dualBound(model, box, [2.5])).toBeCloseTo(8.5, 12);
    expect(dualBound(model, box, [0])).toBe(0);
  });

  it("proves nothing with a price above a cost, and takes a wrong sign for 0", () => {
    expect(dualBound(model, box, [3.5])).toBe(-Infinity);
    expect(dualBound(model, box, [-1])).toBe(0);
  });
});

describe("claims of emptiness", () => {
  const empty: LinearModel = {
    ...model,
    columns: [
      { cost: 2, high: 3 },
      { cost: 3, high: 0.5 },
    ],
  };

  it("needs multipliers that rule out every point", () => {
    expect(provesInfeasible(empty, boxOf(empty), [1])).toBe(true);
    expect(provesInfeasible(empty, boxOf(empty), [0])).toBe(false);
    expect(provesInfeasible(model, box, [1])).toBe(false);
  });
});

describe("points and rays", () => {
  it("checks rows, bounds and wholeness", () => {
    expect(isFeasible(model, box, [3, 1])).toBe(true);
    expect(isFeasible(model, box, [3, 0.99])).toBe(false);
    expect(isFeasible(model, box, [3.1, 1])).toBe(false);
    expect(isFeasible(model, box, [3, Number.NaN])).toBe(false);
    const whole = { ...model, columns: model.columns.map((c) => ({ ...c, integer: true })) };
    expect(isFeasible(whole, box, [2.5, 1.5])).toBe(false);
  });

  it("takes a ray only where it improves and never leaves", () => {
    const upwards: LinearModel = { ...model, sense: "max" };
    expect(improvesForEver(upwards, box, [0, 1])).toBe(true);
    expect(improvesForEver(upwards, box, [1, 0])).toBe(false);
    expect(improvesForEver(model, box, [0, 1])).toBe(false);
    expect(improvesForEver(upwards, box, [0, 0])).toBe(false);
  });
});

/** A simplex code that claims what it likes. */
function liar(outcome: Outcome, values: readonly number[], weight: number): Tableau {
  return {
    run: () => outcome,
    setCosts: () => undefined,
    values: () => values,
    weights: () => [weight, 0],
    impossibleRow: () => 1,
    ray: () => values,
    penalty: () => ({ down: 0, up: 0 }),
    with: () => liar(outcome, values, weight),
  };
}

describe("a simplex code that lies", () => {
  it.each([
    { what: "a point off the row", outcome: "optimal", values: [0, 0], weight: 0 },
    { what: "a point that is not the best", outcome: "optimal", values: [0, 4], weight: -200 },
    { what: "emptiness where there are points", outcome: "infeasible", values: [0, 0], weight: 1 },
    { what: "endless gain where there is none", outcome: "unbounded", values: [1, 4], weight: 0 },
  ] as const)("is not believed about $what", ({ outcome, values, weight }) => {
    expect(relax(model, box, () => liar(outcome, values, weight)).status).toBe("stuck");
  });
});
