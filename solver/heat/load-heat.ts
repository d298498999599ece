/** One load in one oven as numbers ready for stepping through time; made once per load and kept while it is asked for. */
import type { ThermalCycle } from "../shop.ts";
import type { Member } from "./members.ts";
import type { Propagator } from "./propagator.ts";
import { makePropagator } from "./propagator.ts";

/** Temperatures here are nodes as in propagator.ts: K above the room, a member's less its shelf offset. */
export interface LoadHeat {
  readonly cycle: ThermalCycle;
  readonly ambientC: number;
  readonly members: readonly Member[];
  /** Heat of full fire into the chamber, W. */
  readonly fullW: number;
  /** Wall and fan while the burner may be on, W/K. */
  readonly burnLossWPerK: number;
  /** Per member, of all its pans: film times area, W/K, and stored heat, W·min/K. */
  readonly filmWPerK: Float64Array;
  readonly storedWattMinutesPerK: Float64Array;
  /** Per member: metal at lowC, at lowC + guardC (both by a hair), at highC − guardC. */
  readonly lowNode: Float64Array;
  readonly guardedNode: Float64Array;
  readonly highNode: Float64Array;
  /** The lowest of lowNode. */
  readonly lowestLow: number;
  /** Per member: what is left of its lag behind a steady chamber after a minute. */
  readonly minuteDecay: Float64Array;
  readonly burn: Propagator;
  readonly coast: Propagator;
  /** Chamber after 0, 1, 2 … minutes of coasting, as a row of factors on the state; grown when asked for. */
  readonly coastRows: Float64Array[];
}

/**
 * Metal that creeps up to a level without end (a set-point exactly at it) is never in by rounding: it counts against the
 * most soak and does not count towards the least.
 */
const HAIR_K = 1e-6;

/**
 * The loads asked for last, and those before them: a search meets tens of thousands, most of them once, and the numbers of one
 * take several kilobytes.
 */
let recent = new Map<readonly Member[], LoadHeat>();
let former = new Map<readonly Member[], LoadHeat>();
const RECENT_LOADS = 2048;

export function loadHeat(cycle: ThermalCycle, ambientC: number, members: readonly Member[]): LoadHeat {
  const latest = recent.get(members);
  if (isIn(latest, cycle, ambientC)) return latest;
  const earlier = former.get(members);
  const heat = isIn(earlier, cycle, ambientC) ? earlier : makeLoadHeat(cycle, ambientC, members);
  if (recent.size >= RECENT_LOADS) {
    former = recent;
    recent = new Map();
  }
  recent.set(members, heat);
  return heat;
}

function isIn(heat: LoadHeat | undefined, cycle: ThermalCycle, ambientC: number): heat is LoadHeat {
  return heat !== undefined && heat.cycle === cycle && heat.ambientC === ambientC;
}

function makeLoadHeat(cycle: ThermalCycle, ambientC: number, members: readonly Member[]): LoadHeat {
  const perMember = (value: (member: Member) => number): Float64Array => {
    const values = new Float64Array(members.length);
    for (let member = 0; member < values.length; member++) values[member] = value(members[member]!);
    return values;
  };
  const nodeOf = (member: Member, metalC: number): number => metalC - member.offsetC - ambientC;
  const filmWPerK = perMember((member) => member.count * cycle.filmWPerM2K * member.body.exchangeM2);
  const memberRate = perMember((member) => ratePerMinute(cycle, member));
  const kelvinPerWattMinute = 60 / (1000 * cycle.heatCapacityKJPerK);
  const chamberGain = filmWPerK.map((film) => film * kelvinPerWattMinute);
  const drawWPerK = filmWPerK.reduce((sum, film) => sum + film, 0);
  const propagator = (lossWPerK: number): Propagator =>
    makePropagator({
      memberRate,
      chamberGain,
      chamberLoss: (lossWPerK + drawWPerK) * kelvinPerWattMinute,
      kelvinPerWattMinute,
    });
  const burnLossWPerK = cycle.wallLossWPerK + cycle.exhaustWPerK;
  const lowNode = perMember((member) => nodeOf(member, member.lowC) - HAIR_K);
  const still = new Float64Array(members.length + 1);
  still[0] = 1;
  return {
    cycle,
    ambientC,
    members,
    fullW: 1000 * cycle.burnerKW * cycle.efficiency,
    burnLossWPerK,
    filmWPerK,
    storedWattMinutesPerK: perMember(({ count, body }) => (count * body.heatJPerK) / 60),
    lowNode,
    lowestLow: lowNode.reduce((least, node) => Math.min(least, node), Infinity),
    guardedNode: perMember((member) => nodeOf(member, member.lowC + cycle.guardC) + HAIR_K),
    highNode: perMember((member) => nodeOf(member, member.highC - cycle.guardC)),
    minuteDecay: memberRate.map((rate) => Math.exp(-rate)),
    burn: propagator(burnLossWPerK),
    coast: propagator(cycle.wallLossWPerK + cycle.coastExhaustWPerK),
    coastRows: [still],
  };
}

/** Share of its lag behind steady air that metal makes up in a minute at first: the film's heat over the heat stored, 1/τ. */
export function ratePerMinute(cycle: ThermalCycle, { body }: Member): number {
  return (60 * cycle.filmWPerM2K * body.exchangeM2) / body.heatJPerK;
}

/** Chamber, in K above the room, after `minutes` of coasting from the state at `rows[at…]`. */
export function coastedChamber(heat: LoadHeat, rows: Float64Array, at: number, minutes: number): number {
  const { coastRows } = heat;
  while (coastRows.length <= minutes) coastRows.push(nextRow(heat.coast, coastRows[coastRows.length - 1]!));
  const row = coastRows[minutes]!;
  let sum = 0;
  for (let node = 0; node < row.length; node++) sum += row[node]! * rows[at + node]!;
  return sum;
}

function nextRow(coast: Propagator, row: Float64Array): Float64Array {
  const size = row.length;
  const next = new Float64Array(size);
  for (let inner = 0; inner < size; inner++)
    for (let node = 0; node < size; node++) next[node]! += row[inner]! * coast.minute[inner * size + node]!;
  return next;
}
