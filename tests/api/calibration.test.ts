/** Readings at a known oven, by the reference integration, posted over HTTP: the proposals find that oven. */
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import type { CalibrationAnswer } from "../../api/contract/calibrating.ts";
import { ovenSchema } from "../../api/contract/oven.ts";
import type { PlanFile, PlanLoad } from "../../api/contract/plan.ts";
import { bodyOf } from "../../solver/heat/body.ts";
import type { Member } from "../../solver/heat/members.ts";
import type { ThermalCycle } from "../../solver/shop.ts";
import { referenceFiring } from "../help/reference-oven.ts";
import { shopDay, testService } from "../help/service.ts";
import type { TestService } from "../help/service.ts";

let shop: TestService;
let plan: PlanFile;
const day = shopDay("small-morning");
const oven = day.ovens[0]!;
const believed = ovenSchema.parse(oven).cycle as ThermalCycle;
/** The oven as it is. */
const real: ThermalCycle = {
  ...believed,
  heatCapacityKJPerK: believed.heatCapacityKJPerK * 1.25,
  wallLossWPerK: believed.wallLossWPerK * 1.4,
  exhaustWPerK: believed.exhaustWPerK * 0.8,
  coastExhaustWPerK: believed.coastExhaustWPerK * 0.8,
  filmWPerM2K: believed.filmWPerM2K * 0.85,
  efficiency: believed.efficiency * 0.9,
};

beforeAll(async () => {
  shop = await testService({ now: "2026-06-09T05:00:00Z" });
  expect((await shop.ask("PUT", "/day", { body: day })).status).toBe(200);
  const { body } = await shop.ask("POST", "/plans", { body: { steps: 20, seconds: 300 } });
  plan = (await shop.finished(body.id)).plan!;
  expect((await shop.ask("POST", `/plans/${body.id}/accept`, { body: {} })).status).toBe(200);
}, 300_000);
afterAll(() => shop.stop());

const at = (instant: string): number => Date.parse(instant);
const inMinutes = (from: string, to: string): number => Math.round((at(to) - at(from)) / 60_000);
const ambientC = day.ambientC ?? 20;

function membersOf(load: PlanLoad): Member[] {
  const shelves = oven.space.kind === "shelves" ? oven.space.shelves : [];
  return load.pans.map(({ id, shelf }) => {
    const line = day.pans.find((pan) => id === pan.id || id.startsWith(`${pan.id}.`))!;
    const { specificHeatJPerKgK } = day.materials[line.material]!;
    const offsetC = shelves.find((one) => one.id === shelf)!.offsetC ?? 0;
    const window = { lowC: 100, highC: 500, soakLeastMinutes: 0, soakMostMinutes: 999 };
    return { count: 1, body: bodyOf({ ...line, specificHeatJPerKgK }), offsetC, ...window };
  });
}

/** Walls alone, door shut and fan off. */
const shut = (fromC: number, minutes: number): number =>
  ambientC + (fromC - ambientC) * Math.exp((-real.wallLossWPerK * minutes * 60) / (real.heatCapacityKJPerK * 1000));

interface Reading {
  readonly at: string;
  readonly load?: string;
  readonly pan?: string;
  readonly chamberC?: number;
  readonly metalC?: number;
  readonly meterUnits?: number;
}

const later = (instant: string, minutes: number): string => new Date(at(instant) + minutes * 60_000).toISOString();

/** Everything that a careful hand would write down at these loads of that oven. */
function readingsAt(loads: readonly PlanLoad[]): Reading[] {
  const { grossKWhPerUnit } = day.gas!;
  const written: Reading[] = [];
  let meter = 500;
  let [chamberC, since] = [ambientC, loads[0]!.doorOpensAt];
  for (const load of loads) {
    const atOpenC = shut(chamberC, inMinutes(since, load.doorOpensAt));
    written.push({ at: load.doorOpensAt, chamberC: atOpenC, meterUnits: meter });
    const members = membersOf(load);
    const unloadMinutes = inMinutes(load.doorClosesAt, load.unloadAt);
    const offMinutes = inMinutes(load.doorClosesAt, load.burnerOffAt!);
    const until = (minute: number) =>
      referenceFiring(
        real,
        ambientC,
        members,
        atOpenC,
        {
          setPointC: load.setPointC!,
          burnerOffMinutes: Math.min(minute, offMinutes),
          unloadMinutes: minute,
        },
        5,
      );
    for (let minute = 5; minute < unloadMinutes; minute += 5) {
      const then = until(minute);
      const instant = later(load.doorClosesAt, minute);
      written.push({
        at: instant,
        load: load.id,
        pan: load.pans[0]!.id,
        chamberC: then.chamberAtUnloadC,
        metalC: then.members[0]!.metalAtUnloadC,
        meterUnits: meter + then.gasKWh / grossKWhPerUnit,
      });
    }
    const whole = until(unloadMinutes);
    meter += whole.gasKWh / grossKWhPerUnit;
    [chamberC, since] = [whole.chamberAtDoneC, load.doneAt];
  }
  for (let minutes = 20; minutes <= 180; minutes += 20)
    written.push({ at: later(since, minutes), chamberC: shut(chamberC, minutes), meterUnits: meter });
  return written;
}

async function write(readings: readonly Reading[]): Promise<void> {
  for (const reading of readings) {
    const { status, text } = await shop.ask("POST", "/readings", { body: { oven: oven.id, ...reading } });
    expect(status, text).toBe(201);
  }
}

const proposed = async (body: object = {}): Promise<CalibrationAnswer> => {
  const reply = await shop.ask("POST", `/ovens/${oven.id}/calibration`, { body });
  expect(reply.status, reply.text).toBe(200);
  return reply.body as CalibrationAnswer;
};

describe("calibration", { timeout: 300_000 }, () => {
  it("has nothing to propose before anything was read, and for no oven that there is not", async () => {
    const nothing = await shop.ask("POST", `/ovens/${oven.id}/calibration`, { body: {} });
    expect(nothing).toMatchObject({ status: 409, body: { detail: expect.stringContaining("read chamber") } });
    expect((await shop.ask("POST", "/ovens/none/calibration", { body: {} })).status).toBe(404);
  });

  it("finds the oven that the readings come from, changes nothing by itself, and is taken by a person", async () => {
    const loads = plan.loads.filter(({ kind }) => kind === "bake");
    await write(readingsAt(loads));
    shop.setNow("2026-06-09T20:30:00Z");
    const before = (await shop.ask("GET", "/day")).body;
    const answer = await proposed();
    expect(answer.firings).toBe(loads.length);
    for (const { figure, now, proposed: value, told } of answer.figures) {
      expect([figure, told]).toEqual([figure, true]);
      expect(now).toBe(believed[figure]);
      expect(Math.abs(value / real[figure] - 1), `${figure}: ${value} for ${real[figure]}`).toBeLessThan(0.05);
    }
    expect(answer.residualProposed.chamberK).toBeLessThan(1);
    expect(answer.residualProposed.metalK).toBeLessThan(1);
    expect(answer.residualNow.chamberK).toBeGreaterThan(5);
    expect((await shop.ask("GET", "/day")).body).toEqual(before);

    const put = (tag: string) =>
      shop.ask("PUT", `/ovens/${oven.id}`, { body: { oven: answer.proposedOven }, headers: { "If-Match": tag } });
    expect((await put('"0"')).status).toBe(412);
    const taken = await put(answer.etag);
    expect(taken.status, taken.text).toBe(200);
    const { cycle } = (await shop.ask("GET", `/ovens/${oven.id}`)).body.oven;
    for (const { figure, proposed: value } of answer.figures) expect(cycle[figure]).toBe(value);
    expect(cycle.burnerKW).toBe(believed.burnerKW);
    const again = await proposed();
    for (const { now, proposed: value } of again.figures) expect(Math.abs(value / now - 1)).toBeLessThan(0.02);
    expect((await shop.ask("POST", `/events/${taken.body.event}/undo`, { body: {} })).status).toBe(201);
    expect((await shop.ask("GET", "/day")).body).toEqual(before);
  });

  it("still knows the firings of a day that was closed, and forgets none but those asked to", async () => {
    const today = await proposed();
    expect((await shop.ask("POST", "/day/close", { body: {} })).status).toBe(201);
    expect(await proposed()).toMatchObject({
      figures: today.figures,
      firings: today.firings,
      readings: today.readings,
    });
    const late = await shop.ask("POST", `/ovens/${oven.id}/calibration`, { body: { from: "2026-06-10T00:00" } });
    expect(late.status).toBe(409);
  });
});
