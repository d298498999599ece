import { beforeAll, describe, expect, it } from "vitest";
import { assignBakes } from "../../../../solver/lp-models/assign.ts";
import type { AssignTask } from "../../../../solver/lp-models/assign.ts";
import { createLp } from "../../../../solver/lp/lp.ts";
import type { LinearModel, Row } from "../../../../solver/lp/model.ts";
import { openHighs } from "../../../help/highs.ts";
import { drawFrom } from "../../../help/lp-families.ts";

const one = (room: number, cost: number, amount = 1): AssignTask["pans"][number][number] => ({
  cost,
  takes: [[room, amount]],
});

it("lets the pan that gains most have the scarce place", () => {
  const task: AssignTask = {
    pans: [
      [one(0, 1), one(1, 4)],
      [one(0, 2), one(1, 9)],
    ],
    rooms: [1, 5],
  };
  expect(assignBakes(createLp(), task)).toMatchObject({ chosen: [1, 0], value: 6 });
});

it("makes both coats of a pan fit where one choice takes two places", () => {
  const both = {
    cost: 1,
    takes: [
      [0, 2],
      [1, 1],
    ] as const,
  };
  const task: AssignTask = {
    pans: [
      [both, one(2, 8)],
      [one(0, 1, 2), one(2, 3)],
    ],
    rooms: [3, 1, 9],
  };
  expect(assignBakes(createLp(), task)).toMatchObject({ chosen: [0, 1], value: 4, bound: expect.any(Number) });
});

it("finds nothing where the pans do not fit", () => {
  expect(assignBakes(createLp(), { pans: [[one(0, 1)], [one(0, 1)]], rooms: [1] })).toBeUndefined();
});

it("repairs where every rounding of the fractions would overfill a load", () => {
  // Three pans of 2 in loads of 3 and 3 and a dear one: the LP halves one pan, the rounding may not.
  const pans = [0, 1, 2].map((k) => [one(0, 1 + k, 2), one(1, 1 + k, 2), one(2, 50, 2)]);
  const answer = assignBakes(createLp(), { pans, rooms: [3, 3, 9] })!;
  expect(answer.value).toBe(50 + 1 + 2);
  expect(answer.bound).toBeLessThanOrEqual(answer.value);
});

describe("random skeletons of loads", () => {
  let reference: (model: LinearModel) => { status: string; value: number };
  beforeAll(async () => {
    reference = await openHighs();
  });

  it("fits, never beats the reference solver, and is within 3 % of it on average", () => {
    let excess = 0;
    let solved = 0;
    for (let seed = 1; seed <= 20; seed++) {
      const task = skeleton(seed, 6 + (seed % 9), 3 + (seed % 3));
      const answer = assignBakes(createLp(), task);
      const truth = reference(toModel(task));
      if (truth.status === "infeasible") expect(answer).toBeUndefined();
      if (!answer) continue;
      expect(answer.value, `skeleton ${seed}`).toBeGreaterThanOrEqual(truth.value - 1e-6);
      expect(answer.bound, `skeleton ${seed}`).toBeLessThanOrEqual(truth.value + 1e-6);
      checkFit(task, answer.chosen, answer.value);
      excess += answer.value / truth.value - 1;
      solved++;
    }
    expect(solved).toBeGreaterThan(14);
    expect(excess / solved).toBeLessThan(0.03);
  }, 30_000);
});

function skeleton(seed: number, panCount: number, loads: number): AssignTask {
  const draw = drawFrom(seed);
  const pans = Array.from({ length: panCount }, () => {
    const area = draw.whole(4, 12);
    const mass = draw.real() * 3;
    return Array.from({ length: loads }, (_, load) => load)
      .filter((load) => load === loads - 1 || draw.chance(0.5))
      .map((load) => ({
        cost: load === loads - 1 ? 60 : draw.whole(1, 25),
        takes: [
          [2 * load, area],
          [2 * load + 1, mass],
        ] as const,
      }));
  });
  const share = (8 * panCount) / (loads - 1);
  const rooms = Array.from({ length: loads }, (_, load) =>
    load === loads - 1 ? [1e6, 1e6] : [share * 0.8, (share / 8) * 1.5],
  ).flat();
  return { pans, rooms };
}

function checkFit(task: AssignTask, chosen: readonly number[], value: number): void {
  const free = [...task.rooms];
  let cost = 0;
  chosen.forEach((c, p) => {
    cost += task.pans[p]![c]!.cost;
    for (const [room, amount] of task.pans[p]![c]!.takes) free[room] = free[room]! - amount;
  });
  expect(Math.min(...free)).toBeGreaterThanOrEqual(-1e-6);
  expect(cost).toBeCloseTo(value, 9);
}

function toModel(task: AssignTask): LinearModel {
  const columns: { cost: number; integer: boolean }[] = [];
  const full = task.rooms.map((rhs) => ({ kind: "<=" as const, rhs, columns: [] as number[], values: [] as number[] }));
  const once = task.pans.map((choices): Row => {
    const own = choices.map(({ cost, takes }) => {
      const column = columns.push({ cost, integer: true }) - 1;
      takes.forEach(([room, amount]) => {
        full[room]!.columns.push(column);
        full[room]!.values.push(amount);
      });
      return column;
    });
    return { kind: "=", rhs: 1, columns: own, values: own.map(() => 1) };
  });
  return { sense: "min", columns, rows: [...once, ...full.filter((row) => row.columns.length > 0)] };
}
