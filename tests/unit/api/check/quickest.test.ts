import { describe, expect, test } from "vitest";
import { viewDay } from "../../../../api/check/day-view.ts";
import type { LonePan, QuickFiring } from "../../../../api/check/quickest.ts";
import { quickestFiring } from "../../../../api/check/quickest.ts";
import type { Day } from "../../../../api/contract/day.ts";
import { daySchema } from "../../../../api/contract/day.ts";
import type { Member } from "../../../../solver/heat/members.ts";
import type { ReferenceFiring } from "../../../help/reference-oven.ts";
import { referenceFiring } from "../../../help/reference-oven.ts";
import { mixedShop } from "./mixed-shop.ts";
import { memberOf, thermalCycle } from "./plan-from-decisions.ts";

function lonePan(day: Day, id: string, coatNumber: number): LonePan {
  const line = viewDay(day, 5).lines.get(id);
  const coat = line?.coats[coatNumber - 1];
  if (line === undefined || coat === undefined) throw new Error(`no coat ${coatNumber} of ${id}`);
  const cycle = thermalCycle(day, "gas-1");
  return { cycle, ambientC: 20, line, coat, offsetsC: [3, 0], ofEquallyQuick: "least gas", reading: "as is" };
}

interface Tried {
  readonly member: Member;
  readonly setPointC: number;
  readonly off: number;
  readonly unload: number;
}

/** Every sound firing of so many minutes, tried one by one with the reference integration. */
function bruteForce(
  day: Day,
  { id, coat, startC }: { readonly id: string; readonly coat: number; readonly startC: number },
  minutes: readonly number[],
): { minutes: number; gasKWh: number } {
  const cycle = thermalCycle(day, "gas-1");
  let best = { minutes: Infinity, gasKWh: Infinity };
  const fire = ({ member, setPointC, off, unload }: Tried, later: number, step: number): ReferenceFiring => {
    const times = { setPointC, burnerOffMinutes: off + later, unloadMinutes: unload + later };
    return referenceFiring(cycle, 20, [member], startC, times, step);
  };
  const isSound = (tried: Tried, step: number, graceMinutes: number): boolean => {
    const early = fire(tried, -cycle.earlyMinutes, step).members[0];
    const late = fire(tried, cycle.slackMinutes, step).members[0];
    return (
      (early?.soakMinutes ?? 0) >= tried.member.soakLeastMinutes - graceMinutes &&
      (late?.aboveLowMinutes ?? 0) <= tried.member.soakMostMinutes + graceMinutes &&
      (late?.peakC ?? 0) <= tried.member.highC - cycle.guardC + graceMinutes
    );
  };
  for (const shelf of ["top", "middle"]) {
    const member = memberOf(day, "gas-1", { id, coat, shelf });
    for (let setPointC = 250; setPointC <= cycle.setPointMaxC; setPointC += 5) {
      for (const unload of minutes) {
        for (let off = unload; off >= 5; off--) {
          const tried = { member, setPointC, off, unload };
          const nominal = fire(tried, 0, 30);
          if (nominal.setPointAtMinutes === null && !nominal.startsAbove) break;
          if (nominal.chamberAtUnloadC > cycle.doorLimitC || unload > best.minutes) continue;
          if (unload === best.minutes && nominal.gasKWh >= best.gasKWh) continue;
          // Coarse steps leave out what is far from sound, fine ones decide.
          if (isSound(tried, 30, 0.3) && isSound(tried, 5, 0)) best = { minutes: unload, gasKWh: nominal.gasKWh };
        }
      }
    }
  }
  return best;
}

describe("the quickest firing of one pan", () => {
  const day = daySchema.parse(mixedShop());

  test.each([
    ["a primer from warm, cold doors only", 200, "K-201-A", 1, 130],
    ["a top coat on cast iron, cold doors only", 200, "K-201-B", 2, 90],
    ["a primer where doors may open hot", 450, "K-201-A", 1, 200],
  ])(
    "is neither slower nor thirstier than any other tried one by one: %s",
    (_title, doorLimitC, id, coat, startC) => {
      const file = mixedShop();
      const ovens = file.ovens.map((oven) =>
        oven.cycle.kind === "thermal" ? { ...oven, cycle: { ...oven.cycle, doorLimitC } } : oven,
      );
      const shop = daySchema.parse({ ...file, ovens });
      const found = quickestFiring(lonePan(shop, id, coat), startC);
      const minutes = found?.minutes ?? 0;
      const tried = bruteForce(shop, { id, coat, startC }, [minutes - 1, minutes]);
      expect(minutes).toBe(tried.minutes);
      expect(Math.abs((found?.gasKWh ?? 0) - tried.gasKWh)).toBeLessThan(0.005 * tried.gasKWh);
    },
    30_000,
  );

  test("takes the same minutes and more gas when it shall coast least", () => {
    const pan = { ...lonePan(day, "K-201-A", 1), cycle: { ...thermalCycle(day, "gas-1"), doorLimitC: 450 } };
    const thrifty: QuickFiring | undefined = quickestFiring(pan, 200);
    const hot = quickestFiring({ ...pan, ofEquallyQuick: "least coasting" }, 200);
    expect(hot?.minutes).toBe(thrifty?.minutes);
    expect(hot?.burnerOffMinute).toBeGreaterThan(thrifty?.burnerOffMinute ?? Infinity);
    expect(hot?.gasKWh).toBeGreaterThan(thrifty?.gasKWh ?? Infinity);
  });

  test("takes no longer where windows and door are easier to keep, and no less where they are harder", () => {
    const pan = lonePan(day, "K-201-A", 1);
    const starts = Array.from({ length: 15 }, (_, index) => 60 + 10 * index);
    const minutes = (["easier", "as is", "harder"] as const).map((reading) =>
      starts.map((startC) => quickestFiring({ ...pan, reading }, startC)?.minutes ?? Infinity),
    );
    starts.forEach((_, at) => {
      const each = minutes.map((one) => one[at]!);
      expect(each).toEqual(each.toSorted((a, b) => a - b));
    });
    const [easier, , harder] = minutes.map((one) => one.reduce((sum, each) => sum + each, 0));
    expect(easier).toBeLessThan(harder!);
  });

  test("does not exist in a chamber so hot that everything bakes too long", () => {
    expect(
      quickestFiring({ ...lonePan(day, "S-1", 1), cycle: { ...thermalCycle(day, "gas-1"), doorLimitC: 450 } }, 420),
    ).toBeUndefined();
  });
});
