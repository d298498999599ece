import { describe, expect, test } from "vitest";
import { simulateFiring, windowsKept } from "../../../../solver/heat/firing.ts";
import { loadHeat } from "../../../../solver/heat/load-heat.ts";
import type { Member } from "../../../../solver/heat/members.ts";
import { firingOptions, firingUnloadedFrom, isFireable } from "../../../../solver/heat/options.ts";
import { whyNoFiring } from "../../../../solver/heat/why-not.ts";
import type { ThermalCycle } from "../../../../solver/shop.ts";
import { demoCycle } from "../../../help/random-ovens.ts";

const primer = { lowC: 250, highC: 300, soakLeastMinutes: 10, soakMostMinutes: 25 };
const pan = { exchangeM2: 0.2111, coatedM2: 0.1056, heatJPerK: 810 };
const casserole = { exchangeM2: 0.248, coatedM2: 0.124, heatJPerK: 6000 };
const pans: readonly Member[] = [
  { count: 6, body: pan, offsetC: 3, ...primer },
  { count: 6, body: pan, offsetC: 0, ...primer },
];

/** By trying every burner-off and every minute at which the door may open, up to an hour; undefined where none keeps every window. */
function soonestUnload(
  cycle: ThermalCycle,
  members: readonly Member[],
  startC: number,
  setPointC: number,
): number | undefined {
  for (let unloadMinutes = 1; unloadMinutes <= 60; unloadMinutes++)
    for (let burnerOffMinutes = 1; burnerOffMinutes <= unloadMinutes; burnerOffMinutes++) {
      const decision = { setPointC, burnerOffMinutes, unloadMinutes };
      const firing = simulateFiring(cycle, 20, members, startC, decision);
      if (!firing.reachedSetPoint || firing.chamberAtUnloadC > cycle.doorLimitC) continue;
      const { earlyMinutes, slackMinutes } = cycle;
      const ends = [-earlyMinutes, slackMinutes];
      if (ends.every((shift) => windowsKept(cycle, 20, members, startC, decision, shift))) return unloadMinutes;
    }
  return undefined;
}

describe("the firings a load may choose from", () => {
  const options = firingOptions(demoCycle, 20, pans, 20);

  test("are quickest first, and none beats another in minutes, gas and warmth left", () => {
    expect(options.length).toBeGreaterThan(1);
    for (let index = 1; index < options.length; index++) {
      const [before, after] = [options[index - 1]!, options[index]!];
      expect(after.unloadMinutes).toBeGreaterThanOrEqual(before.unloadMinutes);
      expect(after.gasKWh < before.gasKWh || Math.abs(after.chamberAtDoneC - before.chamberAtDoneC) > 5).toBe(true);
    }
  });

  test("say what the firing as decided does", () => {
    for (const option of options) {
      const firing = simulateFiring(demoCycle, 20, pans, 20, option);
      expect(option.gasKWh).toBeCloseTo(firing.gasKWh, 9);
      expect(option.chamberAtDoneC).toBeCloseTo(firing.chamberAtDoneC, 9);
      expect(option.metalAtUnloadC).toHaveLength(2);
      expect(option.metalAtUnloadC[0]).toBeCloseTo(firing.members[0]!.metalAtUnloadC, 9);
      expect(firing.chamberAtUnloadC).toBeLessThanOrEqual(demoCycle.doorLimitC);
      expect(firing.reachedSetPoint).toBe(true);
    }
  });

  test("are there exactly where the quick question says so", () => {
    const answers = new Set<boolean>();
    for (const highC of [252, 256, 265, 300])
      for (const startC of [20, 150, 250, 340, 420])
        for (const bodies of [[pan], [casserole], [pan, casserole]]) {
          const members = bodies.map((body) => ({ count: 3, body, offsetC: 0, ...primer, highC }));
          const isAny = isFireable(demoCycle, 20, members, startC);
          expect(isAny, `${highC} ${startC} ${bodies.length}`).toBe(
            firingOptions(demoCycle, 20, members, startC).length > 0,
          );
          answers.add(isAny);
        }
    expect(answers.size).toBe(2);
  });

  test("open the door at the first minute it may be opened", () => {
    for (const option of options) {
      const sooner = { ...option, unloadMinutes: option.unloadMinutes - 1 };
      expect(simulateFiring(demoCycle, 20, pans, 20, sooner).chamberAtUnloadC).toBeGreaterThan(demoCycle.doorLimitC);
    }
  });

  test("have exactly the slack they claim", () => {
    for (const option of options) {
      expect(option.slackMinutes).toBeGreaterThanOrEqual(demoCycle.slackMinutes);
      expect(windowsKept(demoCycle, 20, pans, 20, option, option.slackMinutes)).toBe(true);
      expect(windowsKept(demoCycle, 20, pans, 20, option, option.slackMinutes + 1)).toBe(false);
    }
  });

  test("stop at the set-point limits given", () => {
    const found = firingOptions(demoCycle, 20, pans, 20, { lowSetPointC: 265, highSetPointC: 270 });
    expect(found.length).toBeGreaterThan(0);
    for (const { setPointC } of found) expect([265, 270]).toContain(setPointC);
  });

  test("that take more minutes and gas are choices as long as they leave the chamber warmer or cooler than asked", () => {
    const limit = { lowSetPointC: 240, highSetPointC: 320 };
    const every = firingOptions(demoCycle, 20, pans, 100, { ...limit, alikeChamberK: -1 });
    const worth = (apartK: number): number[] =>
      every
        .filter((option, at) =>
          every
            .slice(0, at)
            .every(
              (better) =>
                better.gasKWh > option.gasKWh || Math.abs(better.chamberAtDoneC - option.chamberAtDoneC) > apartK,
            ),
        )
        .map(({ setPointC }) => setPointC);
    expect(worth(5).length).toBeLessThan(worth(0.25).length);
    for (const apartK of [5, 0.25]) {
      const found = firingOptions(demoCycle, 20, pans, 100, { ...limit, alikeChamberK: apartK });
      expect(found.map(({ setPointC }) => setPointC)).toEqual(worth(apartK));
    }
  });

  test("are those of a cycle with set-points as far apart as the limit says", () => {
    const coarse = firingOptions(demoCycle, 20, pans, 20, { setPointStepC: 15 });
    expect(coarse.length).toBeGreaterThan(0);
    expect(coarse).toEqual(firingOptions({ ...demoCycle, setPointStepC: 15 }, 20, [...pans], 20));
    for (const { setPointC } of coarse) expect(setPointC % 15).toBe(0);
  });

  test("are the same after thousands of other loads, whose numbers are kept instead", () => {
    const before = firingOptions(demoCycle, 20, pans, 100);
    for (let other = 0; other < 5_000; other++) loadHeat(demoCycle, 20, [{ ...pans[0]!, count: 1 + (other % 9) }]);
    expect(firingOptions(demoCycle, 20, pans, 100)).toEqual(before);
  });

  test("unload at burner-off where the door may be opened hot", () => {
    const hot = firingOptions({ ...demoCycle, doorLimitC: 500 }, 20, pans, 250);
    expect(hot.length).toBeGreaterThan(0);
    for (const option of hot) expect(option.unloadMinutes).toBe(option.burnerOffMinutes);
  });

  test("are no later than any burner-off and door could be, the burner off sooner where it must be", () => {
    const hotDoor = { ...demoCycle, doorLimitC: 450, setPointMaxC: 440, setPointStepC: 10 };
    const top = { ...primer, lowC: 380, highC: 415, soakLeastMinutes: 5, soakMostMinutes: 15 };
    let sparing = 0;
    for (const startC of [340, 380, 390, 400, 405])
      for (const count of [2, 6])
        for (const offsetC of [-2, 0, 2]) {
          const members = [{ ...top, count, body: pan, offsetC }];
          const found = firingOptions(hotDoor, 20, members, startC, { alikeChamberK: -1 });
          sparing += found.filter(({ burnerOffMinutes, unloadMinutes }) => burnerOffMinutes < unloadMinutes).length;
          for (const setPointC of [380, 390, 400, 410, 420])
            expect(
              found.find((option) => option.setPointC === setPointC)?.unloadMinutes,
              `${startC} ${count} ${offsetC} ${setPointC}`,
            ).toBe(soonestUnload(hotDoor, members, startC, setPointC));
        }
    expect(sparing).toBeGreaterThan(0);
  });

  test("come from a chamber above the set-point too, with little gas or none", () => {
    const wide = pans.map((member) => ({ ...member, highC: 420, soakMostMinutes: 90 }));
    const cycle = { ...demoCycle, doorLimitC: 500 };
    const found = firingOptions(cycle, 20, wide, 430, { highSetPointC: 260 });
    expect(found.map((option) => option.setPointC)).toContain(260);
    expect(found[0]!.gasKWh).toBeLessThan(4);
  });

  describe("in a chamber that falls to the set-point or through it", () => {
    const hotDoor = {
      ...demoCycle,
      burnerKW: 56,
      efficiency: 0.8,
      exhaustWPerK: 34,
      coastExhaustWPerK: 110,
      doorTauMinutes: 13,
      doorLimitC: 450,
      setPointMaxC: 440,
      guardC: 4,
      purgeMinutes: 3,
    };
    // The cool shelf's pan has soaked and is below its window again before the warm shelf's has soaked.
    const apart: readonly Member[] = [
      { count: 1, body: { ...pan, exchangeM2: 0.181, heatJPerK: 657 }, offsetC: -5, ...primer },
      { count: 1, body: { ...pan, exchangeM2: 0.1194, heatJPerK: 576 }, offsetC: 5, ...primer },
    ];
    const setPoints = Array.from({ length: 60 }, (_, index) => 30 + 5 * index);
    const sorts = [380, 400, 410, 415, 419.4, 435].flatMap((chamberC) =>
      [apart, pans].map((members) => ({ chamberC, members })),
    );

    test.each(sorts)(
      "are the first that keep every window, minute by minute: $chamberC °C",
      ({ chamberC, members }) => {
        const quickest = setPoints.map((setPointC) => {
          for (let minute = Math.ceil(hotDoor.purgeMinutes); minute < 90; minute++) {
            const decision = { setPointC, burnerOffMinutes: minute, unloadMinutes: minute };
            const kept = (later: number): boolean => windowsKept(hotDoor, 20, members, chamberC, decision, later);
            if ([-1, 0, 1, 2].every(kept)) return minute;
          }
          return undefined;
        });
        const alone = setPoints.map((setPointC) =>
          firingOptions(hotDoor, 20, members, chamberC, { lowSetPointC: setPointC, highSetPointC: setPointC }).at(0),
        );
        expect(alone.map((option) => option?.unloadMinutes)).toEqual(quickest);
        const together = firingOptions(hotDoor, 20, members, chamberC, { highSetPointC: setPoints.at(-1)! });
        for (const option of alone) {
          if (option === undefined) continue;
          const isMatched = together.some(
            (other) =>
              other.unloadMinutes <= option.unloadMinutes &&
              other.gasKWh <= option.gasKWh &&
              Math.abs(other.chamberAtDoneC - option.chamberAtDoneC) <= 5,
          );
          expect(isMatched, `${option.setPointC} °C`).toBe(true);
        }
      },
    );

    test("are found for some of these chambers", () => {
      const counts = sorts.map(({ chamberC, members }) => firingOptions(hotDoor, 20, members, chamberC).length);
      expect(counts.filter((count) => count > 1).length).toBeGreaterThan(2);
    });
  });

  test("are none for a burner that never gets there, a window no metal reaches, or pans whose windows do not meet", () => {
    expect(firingOptions({ ...demoCycle, burnerKW: 8 }, 20, pans, 20)).toEqual([]);
    expect(firingOptions({ ...demoCycle, setPointMaxC: 250 }, 20, pans, 20)).toEqual([]);
    const apart = [pans[0]!, { ...pans[1]!, body: { ...casserole, heatJPerK: 12_000 }, soakLeastMinutes: 15 }];
    expect(firingOptions(demoCycle, 20, apart, 20)).toEqual([]);
  });

  test("are none where the door may never be opened", () => {
    expect(firingOptions({ ...demoCycle, doorLimitC: 30 }, 35, pans, 35)).toEqual([]);
  });

  test("want a soak that only begins above the guard: a set-point at lowC + guardC is never enough", () => {
    const found = firingOptions({ ...demoCycle, setPointMaxC: 255 }, 20, [pans[1]!], 20);
    expect(found).toEqual([]);
  });
});

describe("a door that waits for people", () => {
  test("takes the earliest burner-off that still soaks enough, with the door shut for as long as asked", () => {
    const wide = pans.map((member) => ({ ...member, soakMostMinutes: 200 }));
    const soonest = firingUnloadedFrom(demoCycle, 20, wide, 20, 275, 0)!;
    const waiting = firingUnloadedFrom(demoCycle, 20, wide, 20, 275, soonest.unloadMinutes + 45)!;
    expect(waiting.unloadMinutes).toBe(soonest.unloadMinutes + 45);
    expect(waiting.burnerOffMinutes).toBe(soonest.burnerOffMinutes);
  });

  test("saves burner where a hot door would have had to be held for", () => {
    const cycle = { ...demoCycle, doorLimitC: 500 };
    const soonest = firingUnloadedFrom(cycle, 20, pans, 20, 275, 0)!;
    const later = firingUnloadedFrom(cycle, 20, pans, 20, 275, soonest.unloadMinutes + 3)!;
    expect(later.burnerOffMinutes).toBeLessThan(soonest.burnerOffMinutes);
    expect(later.gasKWh).toBeLessThan(soonest.gasKWh);
  });

  test("finds a later burner-off where a shut chamber would stay hot too long", () => {
    // The fan only runs while the burner may be on, and the burner cannot hold 140 °C: the chamber falls through it.
    const drawn = { burnerKW: 8, efficiency: 0.5, heatCapacityKJPerK: 180, wallLossWPerK: 0, exhaustWPerK: 80 };
    const cycle = {
      ...demoCycle,
      ...drawn,
      coastExhaustWPerK: 0,
      purgeMinutes: 0,
      doorLimitC: 500,
      doorTauMinutes: 30,
      guardC: 2,
    };
    const window = { lowC: 128.4, highC: 170, soakLeastMinutes: 5, soakMostMinutes: 35 };
    const light = [{ count: 6, body: { exchangeM2: 0.2, coatedM2: 0.1, heatJPerK: 70 }, offsetC: 2.5, ...window }];
    const found = firingUnloadedFrom(cycle, 20, light, 173, 140, 76)!;
    expect(found.unloadMinutes).toBe(76);
    expect(windowsKept(cycle, 20, light, 173, found, 0)).toBe(true);
    expect(windowsKept(cycle, 20, light, 173, { ...found, burnerOffMinutes: 1 }, 0)).toBe(false);
  });

  test("has no answer where waiting would overbake", () => {
    expect(
      firingUnloadedFrom({ ...demoCycle, coastExhaustWPerK: 0, wallLossWPerK: 0 }, 20, pans, 20, 275, 200),
    ).toBeUndefined();
  });
});

describe("why two pans share no firing", () => {
  const slow: Member = { count: 1, body: { ...casserole, heatJPerK: 12_000 }, offsetC: 0, ...primer };

  test("names the slow one, the quick one, and how far they miss each other", () => {
    const miss = whyNoFiring(demoCycle, 20, [slow, pans[1]!])!;
    expect(miss).toMatchObject({ slow: 0, fast: 1 });
    expect(miss.needsUntilMinute).toBeGreaterThan(miss.staysUntilMinute);
    expect(miss.staysUntilMinute).toBeGreaterThanOrEqual(0);
    expect(whyNoFiring(demoCycle, 20, [pans[1]!, slow])).toMatchObject({ slow: 1, fast: 0, setPointC: miss.setPointC });
  });

  test("has no figures where no set-point brings both metals into their windows", () => {
    expect(whyNoFiring({ ...demoCycle, burnerKW: 8 }, 20, [slow, pans[1]!])).toBeUndefined();
  });
});
