/** Invented ovens and loads for property tests: from a chamber-sized grill to a brick box, from foil to a casserole. */
import fc from "fast-check";
import type { Member } from "../../solver/heat/members.ts";
import type { ThermalCycle } from "../../solver/shop.ts";

export const demoCycle: ThermalCycle = {
  kind: "thermal",
  burnerKW: 40,
  efficiency: 0.75,
  heatCapacityKJPerK: 120,
  wallLossWPerK: 8,
  exhaustWPerK: 30,
  coastExhaustWPerK: 90,
  filmWPerM2K: 28,
  purgeMinutes: 4,
  loadMinutes: 4,
  unloadMinutes: 4,
  doorTauMinutes: 9,
  doorLimitC: 200,
  setPointMaxC: 430,
  setPointStepC: 5,
  guardC: 5,
  earlyMinutes: 1,
  slackMinutes: 2,
  startC: 20,
};

/** `doorLimitC` reaches from cooler than a hand-warm oven to above every set-point. */
export const anyCycle: fc.Arbitrary<ThermalCycle> = fc.record({
  kind: fc.constant("thermal" as const),
  burnerKW: fc.double({ min: 6, max: 90, noNaN: true }),
  efficiency: fc.double({ min: 0.4, max: 0.95, noNaN: true }),
  heatCapacityKJPerK: fc.double({ min: 25, max: 400, noNaN: true }),
  wallLossWPerK: fc.double({ min: 0, max: 40, noNaN: true }),
  exhaustWPerK: fc.double({ min: 0, max: 80, noNaN: true }),
  coastExhaustWPerK: fc.double({ min: 0, max: 250, noNaN: true }),
  filmWPerM2K: fc.double({ min: 8, max: 60, noNaN: true }),
  purgeMinutes: fc.constantFrom(0, 1, 2.5, 4, 7),
  loadMinutes: fc.integer({ min: 0, max: 8 }),
  unloadMinutes: fc.integer({ min: 0, max: 8 }),
  doorTauMinutes: fc.double({ min: 2, max: 30, noNaN: true }),
  doorLimitC: fc.constantFrom(110, 150, 200, 260, 500),
  setPointMaxC: fc.constant(430),
  setPointStepC: fc.constantFrom(5, 10),
  guardC: fc.integer({ min: 0, max: 8 }),
  earlyMinutes: fc.integer({ min: 0, max: 2 }),
  slackMinutes: fc.integer({ min: 0, max: 3 }),
  startC: fc.constant(20),
});

/** Time constants from about 5 s (foil) to above 20 min (a heavy casserole). */
export const anyMember: fc.Arbitrary<Member> = fc
  .record({
    count: fc.integer({ min: 1, max: 6 }),
    exchangeM2: fc.double({ min: 0.05, max: 0.5, noNaN: true }),
    kilogramsPerM2: fc.double({ min: Math.log(0.3), max: Math.log(60), noNaN: true }).map(Math.exp),
    specificHeat: fc.constantFrom(385, 500, 900),
    offsetC: fc.integer({ min: -8, max: 8 }),
    lowC: fc.integer({ min: 120, max: 385 }),
    widthC: fc.integer({ min: 25, max: 60 }),
    soakLeastMinutes: fc.integer({ min: 3, max: 15 }),
    spareMinutes: fc.integer({ min: 8, max: 30 }),
  })
  .map((drawn) => ({
    count: drawn.count,
    body: {
      exchangeM2: drawn.exchangeM2,
      coatedM2: drawn.exchangeM2 / 2,
      heatJPerK: (drawn.exchangeM2 / 2) * drawn.kilogramsPerM2 * drawn.specificHeat,
    },
    offsetC: drawn.offsetC,
    // Off the grid of set-points: metal that creeps up to a level without end has no soak to compare.
    lowC: drawn.lowC + 0.37,
    highC: drawn.lowC + drawn.widthC,
    soakLeastMinutes: drawn.soakLeastMinutes,
    soakMostMinutes: drawn.soakLeastMinutes + drawn.spareMinutes,
  }));

/** Members of one window, as the loads of a day usually have. */
export const alikeMembers: fc.Arbitrary<readonly Member[]> = fc
  .tuple(fc.array(anyMember, { minLength: 1, maxLength: 4 }), anyMember)
  .map(([members, window]) =>
    members.map((member) => ({
      ...member,
      lowC: window.lowC,
      highC: window.highC,
      soakLeastMinutes: window.soakLeastMinutes,
      soakMostMinutes: window.soakMostMinutes,
    })),
  );

export const anyMembers = fc.array(anyMember, { minLength: 0, maxLength: 4 });
