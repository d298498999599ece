/**
 * Invented day files that look like a workshop's: five coat systems, discs and handled pieces, thin and heavy metal,
 * tickets of several lines, sprayed and rush pans. The same wish gives the same day, always valid input.
 */
import type { DayFile } from "../../api/contract/day.ts";
import { inventCalendar, zones } from "./day-calendar.ts";
import { chance as chanceOf } from "./day-chance.ts";
import type { Chance } from "./day-chance.ts";
import { inventCoatings } from "./day-coatings.ts";
import { inventHeld } from "./day-held.ts";
import { inventLines } from "./day-lines.ts";
import { inventOvens } from "./day-ovens.ts";
import { materials } from "./day-pieces.ts";

export interface DayWish {
  /** Pieces to bake. */
  readonly pans: number;
  readonly ovens: number;
  /** Does the oven load at any temperature, or only once it has cooled to about 200 °C? */
  readonly door: "hot" | "cold";
  /** Calm: promises with room. Overloaded: most are hard to keep. */
  readonly pace: "calm" | "overloaded";
  readonly seed: number;
  /** IANA name; default by the seed. */
  readonly zone?: string;
  /** Staffed days, 1 to 3; default by the pans per oven. */
  readonly days?: number;
  /** Money per staffed hour; default 5 for odd seeds, 20 for even ones. */
  readonly crew?: number;
  /** 0: no limit. Default by chance, usually one. */
  readonly sprayers?: number;
  /** Default thermal. */
  readonly cycle?: "thermal" | "fixed";
  /** Also a load that is out and one that still burns when planning starts. */
  readonly held?: boolean;
}

export function generatedDay(wish: DayWish): DayFile {
  const chance = chanceOf(wish.seed * 7919 + wish.pans);
  const { pans: count, pace } = wish;
  const calendar = inventCalendar(chance, { zone: wish.zone ?? chance.oneOf(zones), days: wish.days ?? daysFor(wish) });
  const ovens = inventOvens(chance, { ovens: wish.ovens, door: wish.door, cycle: wish.cycle ?? "thermal" });
  const onlyOven = wish.ovens > 1 && chance.happens(0.3) ? ovens[0]?.id : undefined;
  const coatings = inventCoatings(chance, onlyOven);
  const shop = inventShop(chance, wish);
  const { benches } = shop.prep;
  const { sprayers } = shop.booth;
  const lines = inventLines(chance, { pans: count, pace, calendar, coatings, ovens: wish.ovens, benches, sprayers });
  const { held, pans } =
    wish.held === true && ovens[0] !== undefined
      ? inventHeld({ calendar, coatings, oven: ovens[0], pans: lines })
      : { held: [], pans: lines };
  return {
    formatVersion: 1,
    title: `${count} pans, ${wish.door} door, ${pace}, seed ${wish.seed}`,
    timeZone: calendar.zone,
    currency: "EUR",
    planFrom: calendar.planFrom,
    staffed: calendar.staffed,
    ...shop,
    materials,
    coatings,
    ovens,
    pans,
    held,
  };
}

function daysFor({ pans, ovens, pace }: DayWish): number {
  return Math.min(3, Math.max(1, Math.ceil(pans / ovens / (pace === "calm" ? 25 : 40))));
}

/** What the shop pays, how many hands it has, and what it never bakes together. */
function inventShop(chance: Chance, { pans, seed, crew, sprayers }: DayWish) {
  const tooMany = pans > 60;
  const drawn = tooMany
    ? Math.ceil(pans / 70)
    : chance.byShare([
        [7, 1],
        [2, 2],
        [1, 0],
      ]);
  return {
    ambientC: chance.whole(16, 24),
    prices: {
      gasPerKWh: chance.stepped(0.09, 0.15, 0.01),
      crewPerHour: crew ?? (seed % 2 === 1 ? 5 : 20),
      latePerPanHour: 6,
      rushLatePerPanHour: 40,
      leftOverPerPan: chance.oneOf([30, 45, 60]),
      movePerPan: 1,
    },
    gas: chance.happens(0.6)
      ? { kind: "natural", grossKWhPerUnit: 11, unit: "m3", kgCO2ePerKWh: 0.183 }
      : {
          kind: "propane",
          grossKWhPerUnit: 14,
          unit: "kg",
          kgCO2ePerKWh: 0.214,
          unitsLeft: chance.whole(8, 45),
          maxDrawKW: 60,
        },
    prep: {
      benches: tooMany
        ? chance.oneOf([0, 3])
        : chance.byShare([
            [1, 0],
            [4, 1],
            [3, 2],
          ]),
    },
    booth: {
      sprayers: sprayers ?? drawn,
      changeoverMinutes: chance.whole(4, 9),
      handleAtC: 40,
      coolFilmWPerM2K: chance.whole(11, 15),
    },
    finishMinutes: chance.oneOf([0, 15, 20]),
    mixing: {
      rule: chance.happens(0.15) ? ("same-group" as const) : ("any" as const),
      neverTogether: neverTogether(),
      cleanBurn: { after: ["silicone"], before: ["fluoropolymer", "sol-gel"], setPointC: 420, holdMinutes: 20 },
    },
  };
}

function neverTogether(): [string, string][] {
  return [
    ["silicone", "fluoropolymer"],
    ["silicone", "sol-gel"],
    ["silicone", "bare metal"],
    ["bare metal", "fluoropolymer"],
    ["bare metal", "sol-gel"],
  ];
}

export interface BenchDay {
  readonly name: string;
  /** Name of the set it is measured with: days6, days8, … */
  readonly set: string;
  readonly day: DayFile;
}

const SIZES = [
  { pans: 6, ovens: 1, sprayers: 1 },
  { pans: 8, ovens: 1, sprayers: 1 },
  { pans: 12, ovens: 1, sprayers: 1 },
  { pans: 24, ovens: 1, sprayers: 1 },
  { pans: 40, ovens: 1, sprayers: 1 },
  { pans: 80, ovens: 2, sprayers: 2 },
  { pans: 200, ovens: 4, sprayers: 3 },
] as const;
/** Cheap and dear crews meet hot and cold doors alike. */
const KINDS = [
  { door: "hot", pace: "calm", seed: 1 },
  { door: "cold", pace: "calm", seed: 2 },
  { door: "hot", pace: "overloaded", seed: 4 },
  { door: "cold", pace: "overloaded", seed: 3 },
] as const;

/** The days that the benchmark plans; a change here makes kept results worthless. */
export function gatherBenchDays(): BenchDay[] {
  return SIZES.flatMap((size) =>
    KINDS.map((kind) => ({
      name: `${size.pans}-${kind.door}-${kind.pace}`,
      set: `days${size.pans}`,
      day: generatedDay({ ...size, ...kind }),
    })),
  );
}
