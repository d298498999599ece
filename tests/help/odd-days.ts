/** Invented days in shops unlike the bench's: other clean burns, ovens, shelves, hands, breaks and windows, single coats, little gas. */
import type { DayFile } from "../../api/contract/day.ts";
import { later, millisOf } from "./day-calendar.ts";
import type { Chance } from "./day-chance.ts";
import { chance } from "./day-chance.ts";
import { generatedDay } from "./days.ts";

type CleanBurn = NonNullable<DayFile["mixing"]>["cleanBurn"];
type Oven = DayFile["ovens"][number];
type Coating = DayFile["coatings"][number];
type Coat = Coating["coats"][number];

const MINUTE = 60_000;

/** One to `mostPans` pans, one or two ovens; some with a load that is out and one that still burns. Some are refused as input. */
export function oddDay(seed: number, mostPans: number): DayFile {
  const dice = chance(seed * 7919);
  const day = generatedDay({
    seed,
    pans: dice.whole(1, mostPans),
    ovens: dice.happens(0.3) ? 2 : 1,
    door: dice.oneOf(["hot", "cold"]),
    pace: dice.oneOf(["calm", "overloaded"]),
    crew: dice.oneOf([5, 20, 60, 120]),
    held: dice.happens(0.25),
    cycle: dice.happens(0.1) ? "fixed" : "thermal",
    days: dice.oneOf([1, 1, 2]),
  });
  return otherCoats(dice, {
    ...day,
    mixing: {
      ...day.mixing,
      cleanBurn: otherBurn(dice, day.mixing?.cleanBurn ?? null),
      ...(dice.happens(0.2) ? { rule: "same-group" as const } : {}),
      ...(dice.happens(0.3) ? { neverTogether: [] } : {}),
    },
    ovens: day.ovens.map((oven) => otherOven(dice, oven, day)),
    staffed: day.held?.length === 0 && dice.happens(0.4) ? withBreaks(dice, day) : day.staffed,
    prep: { benches: dice.whole(0, 2) },
    booth: {
      ...day.booth,
      sprayers: dice.whole(0, 3),
      changeoverMinutes: dice.oneOf([0, 7, 25]),
      handleAtC: dice.oneOf([30, 40, 80]),
      coolFilmWPerM2K: dice.oneOf([6, 15, 60]),
    },
    ...(day.gas !== undefined && dice.happens(0.4)
      ? { gas: { ...day.gas, unitsLeft: dice.whole(1, 8), maxDrawKW: dice.whole(20, 70) } }
      : {}),
  });
}

/** The same with up to three pans, all late from the start, short soaks, and next to nothing to pay for gas and crew. */
export function hurriedDay(seed: number): DayFile {
  const dice = chance(seed * 104729 + 13);
  const day = oddDay(seed, 3);
  const prices = { gasPerKWh: dice.oneOf([0, 0.01]), crewPerHour: dice.oneOf([0, 1]), latePerPanHour: 100 };
  return {
    ...day,
    held: [],
    prices: { ...prices, leftOverPerPan: 5000 },
    ovens: day.ovens.map((oven) =>
      oven.cycle.kind === "fixed" ? oven : { ...oven, cycle: quickly(dice, oven.cycle) },
    ),
    coatings: day.coatings.map(({ coats, ...coating }) => ({
      ...coating,
      coats: coats.map((coat) => ({
        ...coat,
        bake: { ...coat.bake, soakLeastMinutes: dice.oneOf([0, 1, 2, 5]), soakMostMinutes: 40 },
      })),
    })),
    pans: day.pans.map((pan) => ({
      ...pan,
      latePerHour: null,
      ticket: pan.id,
      massKg: pan.massKg * dice.oneOf([1, 1, 3]),
      promisedAt: later(pan.readyAt, 5, day.timeZone),
    })),
  };
}

type Thermal = Extract<Oven["cycle"], { kind: "thermal" }>;

function quickly(dice: Chance, cycle: Thermal): Thermal {
  return {
    ...cycle,
    doorLimitC: dice.oneOf([110, 150, 190, 250]),
    purgeMinutes: dice.oneOf([0, 1]),
    startC: dice.whole(80, 420),
    coastExhaustWPerK: dice.whole(60, 300),
    heatCapacityKJPerK: cycle.heatCapacityKJPerK * dice.oneOf([0.3, 0.6, 1]),
    burnerKW: cycle.burnerKW * dice.oneOf([1, 2]),
  };
}

function otherBurn(dice: Chance, burn: CleanBurn): CleanBurn {
  if (burn === null || burn === undefined || dice.happens(0.5)) return null;
  if (dice.happens(0.5)) return burn;
  return {
    after: dice.oneOf([["silicone"], ["fluoropolymer", "sol-gel"], ["bare metal"]]),
    before: dice.oneOf([["fluoropolymer"], ["silicone", "sol-gel"], ["fluoropolymer", "sol-gel"]]),
    setPointC: dice.oneOf([200, 350, 400]),
    holdMinutes: dice.whole(0, 40),
  };
}

function otherOven(dice: Chance, oven: Oven, day: DayFile): Oven {
  const { cycle, space } = oven;
  const other: Oven = {
    ...oven,
    attended: dice.happens(0.7),
    maxLoadKg: dice.happens(0.3) ? dice.whole(5, 30) : null,
    maxSolventMl: dice.happens(0.3) ? dice.whole(40, 200) : null,
    lastGroups: dice.happens(0.5) ? ["silicone"] : (oven.lastGroups ?? []),
    outUntil: dice.happens(0.15) ? later(day.planFrom, dice.whole(1, 150), day.timeZone) : null,
  };
  if (space.kind === "shelves" && dice.happens(0.4)) {
    const shelves = space.shelves.map((shelf) => ({
      ...shelf,
      offsetC: dice.whole(-12, 12),
      maxKg: dice.happens(0.3) ? dice.whole(3, 12) : null,
      clearHeightCm: dice.oneOf([8, 12, 30]),
    }));
    other.space = { ...space, gapCm: dice.oneOf([0, 1, 5]), shelves };
  }
  if (cycle.kind === "fixed" || dice.happens(0.3)) return other;
  other.cycle = {
    ...cycle,
    burnerKW: cycle.burnerKW * dice.oneOf([0.5, 1, 2]),
    wallLossWPerK: cycle.wallLossWPerK * dice.oneOf([0.2, 1.5, 4]),
    coastExhaustWPerK: cycle.exhaustWPerK * dice.oneOf([0, 1, 4]),
    purgeMinutes: dice.oneOf([0, 1, 2.5, 8]),
    loadMinutes: dice.whole(0, 9),
    unloadMinutes: dice.whole(0, 9),
    doorTauMinutes: dice.oneOf([1, 5, 30]),
    doorLimitC: dice.oneOf([60, 110, 150, 250, 440]),
    setPointStepC: dice.oneOf([1, 5, 7, 20]),
    guardC: dice.whole(0, 8),
    earlyMinutes: dice.whole(0, 2),
    slackMinutes: dice.whole(0, 3),
    startC: (day.ambientC ?? 20) + dice.whole(0, 180),
  };
  return other;
}

/** Windows and waits of some coats; and, where nothing is held, of some days each coating by its first coat alone, or its last. */
function otherCoats(dice: Chance, day: DayFile): DayFile {
  const at = dice.oneOf([0, -1]);
  const isSingle = day.held?.length === 0 && dice.happens(0.5);
  const coatings = day.coatings.map(({ coats, ...coating }): Coating => {
    const kept = isSingle ? [coats.at(at)!] : coats;
    return { ...coating, coats: kept.map((coat) => otherCoat(dice, coat)) };
  });
  return { ...day, coatings, ...(isSingle ? { pans: day.pans.map((pan) => ({ ...pan, nextCoat: 1 })) } : {}) };
}

function otherCoat(dice: Chance, coat: Coat): Coat {
  const { bake } = coat;
  return {
    ...coat,
    ...(dice.happens(0.3) ? { inspectMinutes: dice.whole(0, 15), flashMinutes: dice.whole(0, 40) } : {}),
    ...(coat.sprayMinutes > 0 && dice.happens(0.3) ? { maxWaitMinutes: dice.oneOf([null, 20, 45]) } : {}),
    bake: {
      ...bake,
      ...(dice.happens(0.2) ? { soakMostMinutes: bake.soakLeastMinutes! + dice.whole(4, 10) } : {}),
      ...(dice.happens(0.2) ? { metalHighC: bake.metalLowC! + dice.whole(25, 40) } : {}),
    },
  };
}

/** Work of 20 to 200 minutes at a time, and breaks of up to an hour. */
function withBreaks(dice: Chance, { staffed, timeZone: zone }: DayFile): DayFile["staffed"] {
  return staffed.flatMap(({ from, to }) => {
    const work: { from: string; to: string }[] = [];
    const length = (millisOf(to, zone) - millisOf(from, zone)) / MINUTE;
    for (let begun = 0; begun < length;) {
      const end = Math.min(length, begun + dice.whole(20, 200));
      work.push({ from: later(from, begun, zone), to: later(from, end, zone) });
      begun = end + dice.whole(1, 60);
    }
    return work;
  });
}
