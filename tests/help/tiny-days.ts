/** Days of a handful of bakes in ovens with a fixed cycle, small enough to try every plan there is. */
import fc from "fast-check";
import type { DayFile } from "../../api/contract/day.ts";

export interface TinyDay {
  readonly ovens: number;
  /** 0: no limit, as in the file. */
  readonly sprayers: 0 | 1;
  readonly changeoverMinutes: number;
  readonly capacityDm2: number;
  readonly loadMinutes: number;
  readonly unloadMinutes: number;
  readonly gasKW: number;
  readonly gasPerKWh: number;
  readonly crewPerHour: number;
  readonly finishMinutes: number;
  /** True: only coats of one group in a firing. */
  readonly sameGroup: boolean;
  readonly pans: readonly TinyPan[];
}

export interface TinyPan {
  readonly dm2: number;
  /** Minutes from the start, as are promises. */
  readonly ready: number;
  readonly prepMinutes: number;
  readonly promised: number;
  readonly latePerHour: number;
  readonly coats: readonly TinyCoat[];
}

export interface TinyCoat {
  readonly cycleMinutes: number;
  readonly sprayMinutes: number;
  readonly flashMinutes: number;
  readonly inspectMinutes: number;
  readonly group: string;
  readonly paint: string;
}

const anyCoat: fc.Arbitrary<TinyCoat> = fc.record({
  cycleMinutes: fc.integer({ min: 10, max: 60 }),
  sprayMinutes: fc.constantFrom(0, 4, 6),
  flashMinutes: fc.constantFrom(0, 10),
  inspectMinutes: fc.constantFrom(0, 3),
  group: fc.constantFrom("a", "a", "b"),
  paint: fc.constantFrom("red", "grey"),
});

export interface TinyKind {
  readonly ovens: number;
  readonly sprayers: 0 | 1;
  /** At most. */
  readonly pans: number;
  /** At most, of each pan. */
  readonly coats: number;
}

export function anyTinyDay({ ovens, sprayers, pans, coats }: TinyKind): fc.Arbitrary<TinyDay> {
  const anyPan: fc.Arbitrary<TinyPan> = fc.record({
    dm2: fc.integer({ min: 2, max: 6 }),
    ready: fc.integer({ min: 0, max: 90 }),
    prepMinutes: fc.constantFrom(0, 12),
    promised: fc.integer({ min: 91, max: 240 }),
    latePerHour: fc.constantFrom(0, 6, 6, 40),
    coats: fc.array(anyCoat, { minLength: 1, maxLength: coats }),
  });
  return fc.record({
    ovens: fc.constant(ovens),
    sprayers: fc.constant(sprayers),
    changeoverMinutes: fc.constantFrom(0, 7),
    capacityDm2: fc.integer({ min: 6, max: 14 }),
    loadMinutes: fc.constantFrom(0, 3),
    unloadMinutes: fc.constantFrom(0, 4),
    gasKW: fc.integer({ min: 5, max: 30 }),
    gasPerKWh: fc.constantFrom(0.5, 1),
    crewPerHour: fc.constantFrom(0, 5, 20),
    finishMinutes: fc.constantFrom(0, 15),
    sameGroup: fc.boolean(),
    pans: fc.array(anyPan, { minLength: 1, maxLength: pans }),
  });
}

const START = Date.UTC(2026, 4, 12, 6);

export function tinyDayFile(tiny: TinyDay): DayFile {
  const at = (minute: number): string => new Date(START + minute * 60_000).toISOString().replace(".000Z", "Z");
  const { loadMinutes, unloadMinutes, gasKW, gasPerKWh, crewPerHour, finishMinutes } = tiny;
  return {
    formatVersion: 1,
    timeZone: "UTC",
    planFrom: at(0),
    staffed: [{ from: at(0), to: at(3000) }],
    prices: { gasPerKWh, crewPerHour, leftOverPerPan: 1e6 },
    prep: { benches: 0 },
    booth: { sprayers: tiny.sprayers, changeoverMinutes: tiny.changeoverMinutes },
    finishMinutes,
    mixing: { rule: tiny.sameGroup ? "same-group" : "any" },
    materials: { steel: { specificHeatJPerKgK: 490 } },
    coatings: tiny.pans.map(({ coats }, i) => ({
      id: `system ${i}`,
      coats: coats.map(({ cycleMinutes, group, ...coat }) => ({
        ...coat,
        mixGroup: group,
        solventMlPerM2: 0,
        bake: { cycleMinutes },
      })),
    })),
    ovens: Array.from({ length: tiny.ovens }, (_, i) => ({
      id: `oven ${i}`,
      cycle: { kind: "fixed" as const, loadMinutes, unloadMinutes, gasKW },
      space: { kind: "area" as const, dm2: tiny.capacityDm2 },
    })),
    pans: tiny.pans.map((pan, i) => ({
      id: `pan ${i}`,
      coating: `system ${i}`,
      readyAt: at(pan.ready),
      prepMinutes: pan.prepMinutes,
      promisedAt: at(pan.promised),
      latePerHour: pan.latePerHour,
      shape: { kind: "area" as const, dm2: pan.dm2 },
      heightCm: 1,
      massKg: 1,
      material: "steel",
    })),
  };
}
