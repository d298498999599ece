/** Prices of heat by hand and against HiGHS (an open LP and MIP solver, MIT licence, University of Edinburgh). */
import { describe, expect, it } from "vitest";
import type { Flow } from "../../../../solver/bound/heat-flows.ts";
import { FIRE } from "../../../../solver/bound/heat-flows.ts";
import { heatPrices } from "../../../../solver/bound/heat-prices.ts";
import type { LinearModel } from "../../../../solver/lp/model.ts";
import { chance } from "../../../help/day-chance.ts";
import { openHighs } from "../../../help/highs.ts";

const flow = (kind: number, cost: number, heat: readonly number[], isLast = false): Flow => ({
  kind,
  isLast,
  cost,
  heat: Float64Array.from(heat),
});

describe("what chamber heat is worth", () => {
  it("is nothing where every bake leaves more than it takes", () => {
    const flows = [flow(FIRE, 5, [1]), flow(0, 2, [0]), flow(0, 3, [1])];
    expect(heatPrices(flows, { loads: new Map([[0, 4]]), held: [1] })).toEqual([0]);
  });

  it("is what a hot start saves while heat is short, and never more than a fire", () => {
    // By hand: cold bakes at 7 leave the stretch full, hot ones at 3 empty it. In turns a pair costs 10; one more unit of heat
    // turns a cold bake and the heat it leaves into hot ones: 7 - 3 = 4 for the two units between them.
    const flows = [flow(FIRE, 5, [1]), flow(0, 7, [1]), flow(0, 3, [-1])];
    expect(heatPrices(flows, { loads: new Map([[0, 4]]), held: [0] })).toEqual([2]);
    const cheapFire = [flow(FIRE, 1, [1]), flow(0, 7, [1]), flow(0, 3, [-1])];
    expect(heatPrices(cheapFire, { loads: new Map([[0, 4]]), held: [0] })).toEqual([1]);
  });

  it("makes the bakes that must be cost what HiGHS says, on random flows", async () => {
    const highs = await openHighs();
    const dice = chance(7);
    for (let round = 0; round < 40; round++) {
      const stretches = dice.whole(1, 8);
      const held = Array.from({ length: stretches }, () => dice.whole(0, 1));
      const loads = new Map(Array.from({ length: dice.whole(1, 6) }, (_, kind) => [kind, dice.whole(1, 4)]));
      const flows = Array.from({ length: stretches }, (_, at) =>
        flow(
          FIRE,
          dice.whole(1, 9),
          held.map((_share, other) => (other === at ? 1 : 0)),
        ),
      );
      for (const kind of loads.keys())
        for (let more = dice.whole(3, 12); more > 0; more--) {
          const heat = held.map(() => dice.whole(-1, 1) * dice.oneOf([1, 0.5]));
          flows.push(flow(kind, dice.whole(0, 30), heat, kind === 0 && more % 2 === 0));
        }
      const isLast = flows.some((one) => one.isLast);
      const row = (rhs: number, valueOf: (one: Flow) => number): LinearModel["rows"][number] => ({
        kind: ">=",
        rhs,
        columns: flows.map((_, at) => at),
        values: flows.map(valueOf),
      });
      const reference = highs({
        sense: "min",
        columns: flows.map(({ cost }) => ({ cost })),
        rows: [
          ...[...loads].map(([kind, many]) => row(many, (one) => (one.kind === kind ? 1 : 0))),
          row(isLast ? 1 : 0, (one) => (one.isLast ? 1 : 0)),
          ...held.map((share, stretch) => row(-share, ({ heat }) => heat[stretch]!)),
        ],
      });
      expect(reference.status).toBe("optimal");
      const prices = heatPrices(flows, { loads, held })!;
      // At these prices every kind by itself takes its cheapest flow, and one more flow ends the day.
      const least = (of: (one: Flow) => boolean): number =>
        Math.min(
          ...flows.filter(of).map(({ cost, heat }) => heat.reduce((sum, share, at) => sum - share * prices[at]!, cost)),
        );
      let said = prices.reduce((sum, price, at) => sum - price * held[at]!, 0);
      for (const [kind, many] of loads)
        said +=
          many *
          Math.max(
            0,
            least((one) => one.kind === kind),
          );
      if (isLast)
        said += Math.max(
          0,
          least((one) => one.isLast) -
            Math.max(
              0,
              least(({ kind }) => kind === 0),
            ),
        );
      expect(said).toBeCloseTo(reference.value, 5);
    }
  });
});
