/** A plan as the solver would answer the good day of fixtures/broken; figures only hang together where a test needs it. */
import type { FiringPlan } from "../../../../solver/index.ts";

type Load = FiringPlan["loads"][number];

const burnt = { doorCloses: 34, burnerOn: 38, setPointAt: 51.237, burnerOff: 70, unload: 100, done: 104 };

export const pinnedLoad: Load = {
  ...burnt,
  heldId: "L2",
  oven: 0,
  kind: "bake",
  state: "pinned",
  setPointC: 400,
  ventMinutes: 0,
  doorOpens: 30,
  chamberStartC: 19.99999,
  gasKWh: 16.812349,
  massKg: 0.6,
  solventMl: 4.9876,
  pans: [
    {
      line: 2,
      item: 1,
      coat: 2,
      shelf: 0,
      xCm: 20,
      yCm: 20,
      turned: false,
      inWindow: 55.51,
      soakMinutes: 14.4049,
      peakC: 398.1249,
      cooled: 121.999,
    },
  ],
  slackMinutes: 4,
  curve: [
    { minute: 0, chamberC: 18.123456, slowestC: 20, fastestC: 20 },
    { minute: 1, chamberC: 30.98765, slowestC: 21.555, fastestC: 21.555 },
  ],
};

export const plannedLoad: Load = {
  ...pinnedLoad,
  heldId: null,
  state: "planned",
  doorOpens: 120,
  doorCloses: 124,
  burnerOn: 128,
  setPointAt: null,
  burnerOff: 150,
  unload: 160,
  done: 164,
  pans: [
    {
      line: 0,
      item: 2,
      coat: 1,
      shelf: 1,
      xCm: 16.00004,
      yCm: 64,
      turned: false,
      inWindow: null,
      soakMinutes: 0,
      peakC: 231.5,
      cooled: 180.5,
    },
  ],
};

const preheat: Load = {
  ...plannedLoad,
  kind: "preheat",
  setPointC: 280,
  doorOpens: 105,
  doorCloses: 105,
  burnerOn: 109,
  setPointAt: 115,
  burnerOff: 118,
  unload: 118,
  done: 118,
  gasKWh: 5,
  massKg: 0,
  solventMl: 0,
  pans: [],
  slackMinutes: 0,
};

export const samplePlan: FiringPlan = {
  proof: {
    status: "good",
    bestPossibleCost: 101.234567,
    unavoidable: { gas: 10.00009, crew: 80, late: 0 },
    steps: 4321,
    lpSolves: 312,
  },
  cost: { total: 160.26, gas: 4.25, crew: 83.21, late: 12.8, leftOver: 60, moved: 0 },
  gasKWh: 38.624698,
  loads: [pinnedLoad, preheat, plannedLoad],
  prep: [{ line: 0, item: 2, bench: 1, from: 0, to: 15 }],
  booth: [{ line: 0, item: 2, coat: 1, sprayer: 1, from: 15, to: 19 }],
  tickets: [
    { ticket: "K-201", ready: 1470, promised: 510, lateMinutes: 960 },
    { ticket: "K-202-A", ready: 400.25, promised: 390, lateMinutes: 10.25 },
    { ticket: "K-203-A", ready: 300, promised: null, lateMinutes: 0 },
  ],
  leftOver: [
    { line: 0, item: 1, coat: 1, reason: { code: "no-room-in-horizon", numbers: { untilMinute: 630 } } },
    { line: 1, item: 1, coat: 2, reason: { code: "costs-more-than-leaving", numbers: { untilMinute: 2070 } } },
  ],
  savings: [{ habit: "one pan per firing", firings: 3, kWh: 60.123456, savedKWh: 21.498758, savedCost: 2.36486338 }],
};
