import { describe, expect, it } from "vitest";
import { createLp, solveLinear } from "../../../../solver/lp/lp.ts";
import type { LinearModel, Row } from "../../../../solver/lp/model.ts";

/** A model from full rows; `columns` holds costs. */
function model(
  sense: "min" | "max",
  costs: readonly number[],
  rows: readonly [number[], Row["kind"], number][],
): LinearModel {
  return {
    sense,
    columns: costs.map((cost) => ({ cost })),
    rows: rows.map(([values, kind, rhs]) => ({ kind, rhs, values, columns: values.map((_, j) => j) })),
  };
}

const whole = (m: LinearModel): LinearModel => ({ ...m, columns: m.columns.map((c) => ({ ...c, integer: true })) });

describe("worked examples of textbooks", () => {
  // Hillier, Lieberman: Introduction to Operations Research, Wyndor Glass example (from memory).
  it("finds the two window products' mix and what an hour in each plant is worth", () => {
    const answer = solveLinear(
      model(
        "max",
        [3, 5],
        [
          [[1, 0], "<=", 4],
          [[0, 2], "<=", 12],
          [[3, 2], "<=", 18],
        ],
      ),
    );
    expect(answer).toMatchObject({ status: "optimal" });
    if (answer.status !== "optimal") return;
    expect(answer.value).toBeCloseTo(36, 9);
    expect(answer.x.map((v) => Math.round(v * 1e9) / 1e9)).toEqual([2, 6]);
    expect(answer.duals?.map((v) => Math.round(v * 1e9) / 1e9)).toEqual([0, 1.5, 1]);
  });

  // Chvátal: Linear Programming, chapter 2, first example (from memory).
  it("solves the first example of Chvátal, with its dual 1, 0, 1", () => {
    const rows: [number[], Row["kind"], number][] = [
      [[2, 3, 1], "<=", 5],
      [[4, 1, 2], "<=", 11],
      [[3, 4, 2], "<=", 8],
    ];
    const answer = solveLinear(model("max", [5, 4, 3], rows));
    if (answer.status !== "optimal") throw new Error(answer.status);
    expect(answer.value).toBeCloseTo(13, 9);
    expect(answer.x.map((v) => Math.round(v * 1e9) / 1e9)).toEqual([2, 0, 1]);
    expect(answer.duals?.map((v) => Math.round(v * 1e9) / 1e9)).toEqual([1, 0, 1]);
  });

  // Dantzig: Linear Programming and Extensions (1963), two canneries and three markets (from memory).
  it("ships from two canneries to three markets for 153.675", () => {
    const cost = [2.5, 1.7, 1.8, 2.5, 1.8, 1.4].map((miles) => (90 * miles) / 1000);
    const answer = solveLinear(
      model("min", cost, [
        [[1, 1, 1, 0, 0, 0], "<=", 350],
        [[0, 0, 0, 1, 1, 1], "<=", 600],
        [[1, 0, 0, 1, 0, 0], ">=", 325],
        [[0, 1, 0, 0, 1, 0], ">=", 300],
        [[0, 0, 1, 0, 0, 1], ">=", 275],
      ]),
    );
    expect(answer.status === "optimal" && answer.value).toBeCloseTo(153.675, 6);
  });

  // Beale (1955), the smallest example on which the plain simplex rule cycles (from memory).
  it("does not cycle on Beale's example", () => {
    const answer = solveLinear(
      model(
        "min",
        [-0.75, 20, -0.5, 6],
        [
          [[0.25, -8, -1, 9], "<=", 0],
          [[0.5, -12, -0.5, 3], "<=", 0],
          [[0, 0, 1, 0], "<=", 1],
        ],
      ),
    );
    expect(answer.status === "optimal" && answer.value).toBeCloseTo(-1.25, 9);
  });

  // Klee, Minty (1972) in three dimensions (from memory).
  it("climbs the Klee-Minty cube to 10 000", () => {
    const answer = solveLinear(
      model(
        "max",
        [100, 10, 1],
        [
          [[1, 0, 0], "<=", 1],
          [[20, 1, 0], "<=", 100],
          [[200, 20, 1], "<=", 10_000],
        ],
      ),
    );
    expect(answer.status === "optimal" && answer.value).toBeCloseTo(10_000, 6);
  });

  // Bradley, Hax, Magnanti: Applied Mathematical Programming, chapter 9 (from memory): 41.25 in fractions, 40 in wholes.
  it("finds 41.25 in fractions and 40 in whole numbers", () => {
    const plain = model(
      "max",
      [5, 8],
      [
        [[1, 1], "<=", 6],
        [[5, 9], "<=", 45],
      ],
    );
    const fractional = solveLinear(plain);
    const answer = solveLinear(whole(plain));
    expect(fractional.status === "optimal" && fractional.value).toBeCloseTo(41.25, 9);
    expect(answer).toMatchObject({ status: "optimal", value: 40, x: [0, 5] });
  });
});

describe("bounds and signs", () => {
  it("minds lower bounds below 0, upper bounds, fixed columns and free ones", () => {
    const answer = solveLinear({
      sense: "min",
      columns: [
        { cost: 1, low: -5 },
        { cost: -2, high: 3 },
        { cost: 4, low: 7, high: 7 },
        { cost: 1, low: -Infinity },
      ],
      rows: [{ kind: ">=", rhs: -10, columns: [3], values: [1] }],
    });
    expect(answer).toMatchObject({ status: "optimal", value: -5 - 6 + 28 - 10, x: [-5, 3, 7, -10] });
  });

  it("keeps a free unknown within a row that bounds it from the other side", () => {
    const column = { cost: -3, low: -Infinity };
    const rows: Row[] = [
      { kind: ">=", rhs: -5, columns: [0], values: [1] },
      { kind: "<=", rhs: 0, columns: [0], values: [-8] },
    ];
    expect(solveLinear({ sense: "max", columns: [column], rows })).toMatchObject({ status: "optimal", x: [0] });
  });

  it("counts the cost of an unknown that two rows fix", () => {
    const rows: [number[], Row["kind"], number][] = [
      [[1], "<=", 5],
      [[-1], "<=", -5],
    ];
    expect(solveLinear(model("min", [1], rows))).toMatchObject({ status: "optimal", value: 5, x: [5] });
  });

  it("rounds the bounds of whole unknowns inwards", () => {
    const columns = [{ cost: 1, low: 0.5, high: 2.5, integer: true }];
    expect(solveLinear({ sense: "max", columns, rows: [] })).toMatchObject({ status: "optimal", x: [2] });
    const none = [{ cost: 1, low: 0.2, high: 0.8, integer: true }];
    expect(solveLinear({ sense: "max", columns: none, rows: [] })).toEqual({ status: "infeasible" });
  });
});

describe("answers other than an optimum", () => {
  it("tells an empty model from an endless one", () => {
    expect(
      solveLinear(
        model(
          "min",
          [1],
          [
            [[1], ">=", 3],
            [[1], "<=", 2],
          ],
        ),
      ),
    ).toEqual({ status: "infeasible" });
    expect(solveLinear(model("max", [1, 1], [[[1, -1], "<=", 2]]))).toEqual({ status: "unbounded" });
    expect(solveLinear(whole(model("max", [1, 1], [[[1, -1], "<=", 2]])))).toEqual({ status: "unbounded" });
    expect(solveLinear(whole(model("max", [1, 0], [[[0, 2], "=", 1]])))).toEqual({ status: "infeasible" });
  });

  it("refuses a tableau above the size asked for", () => {
    const m = model("min", [1, 1], [[[1, 1], "=", 1]]);
    expect(solveLinear(m, { rowsTimesColumns: 8 })).toEqual({ status: "too-large" });
    expect(solveLinear(m, { rowsTimesColumns: 9 })).toMatchObject({ status: "optimal", value: 1 });
  });

  it("says that it failed when the work allowed is too little", () => {
    const rows: [number[], Row["kind"], number][] = [
      [[2, 3, 1], "<=", 5],
      [[4, 1, 2], "<=", 11],
      [[3, 4, 2], "<=", 8],
    ];
    expect(solveLinear(model("max", [5, 4, 3], rows), { work: 10 })).toMatchObject({ status: "failed" });
  });

  it("returns the best point and a certified bound when the nodes run out", () => {
    const weights = [41, 50, 49, 59, 45, 47, 42, 44, 55, 57];
    const m: LinearModel = {
      sense: "max",
      columns: weights.map((cost, j) => ({ cost: cost + (j % 3), high: 1, integer: true })),
      rows: [{ kind: "<=", rhs: 250, columns: weights.map((_, j) => j), values: weights }],
    };
    const exact = solveLinear(m);
    const start = weights.map((_, j) => (j < 3 ? 1 : 0));
    const cut = createLp().solve(m, { nodes: 2 }, start);
    if (exact.status !== "optimal" || cut.status !== "feasible") throw new Error(`${exact.status}, ${cut.status}`);
    expect(cut.value).toBeLessThanOrEqual(exact.value);
    expect(cut.bound).toBeGreaterThanOrEqual(exact.value);
    expect(cut.value).toBeGreaterThanOrEqual(41 + 51 + 51);
  });

  it("ignores a start that breaks a row", () => {
    const m = whole(model("max", [1], [[[2], "<=", 5]]));
    expect(createLp().solve(m, {}, [9])).toMatchObject({ status: "optimal", x: [2] });
  });
});

it("counts the linear programs it solved", () => {
  const lp = createLp();
  expect(lp.solves()).toBe(0);
  lp.solve(model("min", [1], [[[1], ">=", 3]]));
  expect(lp.solves()).toBe(1);
  lp.solve(
    whole(
      model(
        "max",
        [5, 8],
        [
          [[1, 1], "<=", 6],
          [[5, 9], "<=", 45],
        ],
      ),
    ),
  );
  expect(lp.solves()).toBeGreaterThan(2);
});
