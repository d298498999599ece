import { describe, expect, it } from "vitest";
import { planSchema } from "../../../../api/contract/plan.ts";
import { toPlanFile } from "../../../../api/day/from-solver.ts";
import { readDay } from "../../../../api/day/read-day.ts";
import { toRequest } from "../../../../api/day/to-solver.ts";
import type { FiringPlan } from "../../../../solver/index.ts";
import type { Patch } from "./patched-day.ts";
import { patchedDay } from "./patched-day.ts";
import { pinnedLoad, plannedLoad, samplePlan } from "./sample-plan.ts";

const meta = { madeAt: "2026-03-10T07:12:03+00:00", seconds: 1.98765, seed: 7, lpEngine: "javascript-lp-solver" };

function planFile(patch: Patch = {}, plan: Partial<FiringPlan> = {}) {
  const read = readDay(patchedDay(patch));
  if (!read.ok) throw new Error(JSON.stringify(read.problems, null, 1));
  return toPlanFile(read.day, toRequest(read.day), { ...samplePlan, ...plan }, meta);
}

describe("a plan written down", () => {
  it("reads back as what was written", () => {
    const written = planFile();
    expect(planSchema.parse(JSON.parse(JSON.stringify(written)))).toEqual(written);
  });

  it("numbers its loads in order of door opening and skips what held loads are called", () => {
    expect(planFile().loads.map(({ id, kind, state }) => `${id} ${kind} ${state}`)).toEqual([
      "L2 bake pinned",
      "L1 preheat planned",
      "L3 bake planned",
    ]);
  });

  it("gives instants with the zone's offset: whole minutes for hands, seconds for physics", () => {
    const [pinned, , planned] = planFile().loads;
    expect(pinned).toMatchObject({
      doorOpensAt: "2026-03-10T08:00:00+00:00",
      doorClosesAt: "2026-03-10T08:04:00+00:00",
      setPointAt: "2026-03-10T08:21:14+00:00",
      burnerOffAt: "2026-03-10T08:40:00+00:00",
      unloadAt: "2026-03-10T09:10:00+00:00",
      doneAt: "2026-03-10T09:14:00+00:00",
    });
    expect(pinned?.pans[0]).toMatchObject({
      inWindowAt: "2026-03-10T08:25:31+00:00",
      cooledAt: "2026-03-10T09:32:00+00:00",
    });
    expect(planned?.setPointAt).toBeNull();
    expect(planned?.pans[0]?.inWindowAt).toBeNull();
  });

  it("follows the clock of a zone off the hour", () => {
    const { loads } = planFile({ set: { timeZone: "Asia/Kathmandu" } });
    expect(loads[0]?.doorOpensAt).toBe("2026-03-10T08:00:00+05:45");
  });

  it("names pans, shelves, coats and tasks as the day does", () => {
    const { loads, prep, booth } = planFile();
    expect(loads[2]?.pans[0]).toMatchObject({ id: "K-201-A", item: 2, coat: 1, shelf: "middle", xCm: 16, yCm: 64 });
    expect(prep).toEqual([
      { id: "K-201-A", item: 2, bench: 1, from: "2026-03-10T07:30:00+00:00", to: "2026-03-10T07:45:00+00:00" },
    ]);
    expect(booth).toEqual([
      {
        id: "K-201-A",
        item: 2,
        coat: 1,
        sprayer: 1,
        from: "2026-03-10T07:45:00+00:00",
        to: "2026-03-10T07:49:00+00:00",
      },
    ]);
  });

  it("rounds far inside what a checker lets pass, and the bound only downwards", () => {
    const { search, gas, loads } = planFile();
    expect(search).toMatchObject({ bestPossibleCost: 101.2345, seconds: 1.988, steps: 4321, seed: 7, lpSolves: 312 });
    expect(search.unavoidable).toEqual({ gas: 10, crew: 80, late: 0 });
    // 100·(160.26 − 101.234567)/160.26
    expect(search.gapPercent).toBeCloseTo(36.831, 3);
    // 38.624698/11 m³ and ·0.183 kg
    expect(gas).toMatchObject({ kWh: 38.6247, units: 3.5113, unit: "m3", kgCO2e: 7.0683 });
    expect(gas.comparedWith).toEqual([
      { habit: "one pan per firing", firings: 3, kWh: 60.1235, savedKWh: 21.4988, savedCost: 2.3649 },
    ]);
    expect(loads[0]).toMatchObject({ chamberStartC: 20, gasKWh: 16.8123, solventMl: 4.99 });
    expect(loads[0]?.pans[0]).toMatchObject({ soakMinutes: 14.4, peakC: 398.12 });
    expect(loads[0]?.curve[1]).toEqual({ minute: 1, chamberC: 30.99, slowestC: 21.56, fastestC: 21.56 });
  });

  it("says no gap where nothing costs anything", () => {
    const cost = { total: 0, gas: 0, crew: 0, late: 0, leftOver: 0, moved: 0 };
    const proof = { ...samplePlan.proof, bestPossibleCost: 0 };
    expect(planFile({}, { cost, proof }).search.gapPercent).toBe(0);
  });

  it("says why pans are left over, in clock times of the shop", () => {
    expect(planFile().leftOver).toEqual([
      { id: "K-201-A", item: 1, coat: 1, reason: "no firing fits before 18:00" },
      {
        id: "K-201-B",
        item: 1,
        coat: 2,
        reason: "a firing before 2026-03-11 18:00 would cost more than leaving it over",
      },
    ]);
  });

  it("says why tickets are late, and nothing of those in time", () => {
    const [leftOver, late, inTime] = planFile().tickets;
    expect(leftOver).toMatchObject({ ticket: "K-201", lateMinutes: 960, promisedAt: "2026-03-10T16:00:00+00:00" });
    expect(leftOver?.reason).toBe("K-201-A is left over: no firing fits before 18:00");
    // Ready at 14:10:15.
    expect(late?.reason).toBe("its last bake, L2, is out at 09:14; cooling and the work after it last until 14:11");
    expect(inTime).toMatchObject({ promisedAt: null, lateMinutes: 0, reason: null });
  });
});

describe("the warnings of a plan", () => {
  const bottle = (unitsLeft: number | null, maxDrawKW: number | null): Patch => ({
    set: { gas: { kind: "propane", unit: "kg", grossKWhPerUnit: 14, kgCO2ePerKWh: 0.214, unitsLeft, maxDrawKW } },
  });

  // The three loads take 16.8 + 5 + 16.8 = 38.6 kWh; 2.5 kg hold 35 kWh, 3 kg hold 42.
  it("name the load during which the bottle runs out", () => {
    expect(planFile(bottle(3, null)).warnings).toEqual([]);
    const [warning] = planFile(bottle(2.5, null)).warnings;
    expect(warning?.code).toBe("bottle-short");
    expect(warning?.message).toContain("needs 38.6 kWh");
    expect(warning?.message).toContain("about 35 kWh: it would run out during L3");
  });

  it("count no gas of loads that are out already", () => {
    const loads = [{ ...pinnedLoad, state: "fired" as const }, plannedLoad];
    expect(planFile(bottle(2.5, null), { loads }).warnings).toEqual([]);
  });

  it("say when a bottle cannot give what the burner draws, and from when", () => {
    expect(planFile(bottle(null, 40)).warnings).toEqual([]);
    const [warning] = planFile(bottle(null, 27)).warnings;
    expect(warning?.code).toBe("draw-off");
    expect(warning?.message).toContain("draw 40 kW at 08:08 and the bottle gives 27 kW");
  });
});

it("warns of a firing that is not over when everybody leaves, not of those within staffed time", () => {
  expect(planFile().cautions.join(" ")).not.toMatch(/nobody is there/);
  const late = planFile({}, { loads: [{ ...plannedLoad, done: 2000 }] });
  expect(late.cautions.join(" ")).toMatch(/nobody is there/);
  const past = planFile({}, { loads: [{ ...pinnedLoad, state: "fired", doorOpens: -200, done: -100 }, plannedLoad] });
  expect(past.cautions.join(" ")).not.toMatch(/nobody is there/);
});

it("gives the fume caution with a plan that goes to 400 °C, not with one that stays at 280 °C", () => {
  expect(planFile().cautions.join(" ")).toMatch(/hazardous fumes/);
  const cool = planFile({}, { loads: [{ ...plannedLoad, setPointC: 280 }] });
  expect(cool.cautions.join(" ")).not.toMatch(/hazardous fumes/);
  expect(cool.cautions.join(" ")).toMatch(/Solvent/);
});
