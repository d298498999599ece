/** One load in one oven as numbers ready for stepping through time; made once per load and kept while the load is. */
import type { ThermalCycle } from "../shop.ts";
import type { Member } from "./members.ts";
import type { Network, Propagator } from "./propagator.ts";
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

const known = new WeakMap<readonly Member[], LoadHeat>();

export function loadHeat(cycle: ThermalCycle, ambientC: number, members: readonly Member[]): LoadHeat {
  const kept = known.get(members);
  if (kept !== undefined && kept.cycle === cycle && kept.ambientC === ambientC) return kept;
  const made = makeLoadHeat(cycle, ambientC, members);
  known.set(members, made);
  return made;
}

function makeLoadHeat(cycle: ThermalCycle, ambientC: number, members: readonly Member[]): LoadHeat {
  const perMember = (value: (member: Member) => number): Float64Array => Float64Array.from(members, value);
  const nodeOf = (member: Member, metalC: number): number => metalC - member.offsetC - ambientC;
  const filmWPerK = perMember((member) => member.count * cycle.filmWPerM2K * member.body.exchangeM2);
  const memberRate = perMember(({ body }) => (60 * cycle.filmWPerM2K * body.exchangeM2) / body.heatJPerK);
  const burnLossWPerK = cycle.wallLossWPerK + cycle.exhaustWPerK;
  const coastLossWPerK = cycle.wallLossWPerK + cycle.coastExhaustWPerK;
  const size = members.length + 1;
  const lowNode = perMember((member) => nodeOf(member, member.lowC) - HAIR_K);
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
    burn: makePropagator(networkOf(cycle, burnLossWPerK, filmWPerK, memberRate)),
    coast: makePropagator(networkOf(cycle, coastLossWPerK, filmWPerK, memberRate)),
    coastRows: [Float64Array.from({ length: size }, (_, node) => (node === 0 ? 1 : 0))],
  };
}

function networkOf(cycle: ThermalCycle, lossWPerK: number, filmWPerK: Float64Array, memberRate: Float64Array): Network {
  const kelvinPerWattMinute = 60 / (1000 * cycle.heatCapacityKJPerK);
  const drawWPerK = filmWPerK.reduce((sum, film) => sum + film, 0);
  return {
    memberRate,
    chamberGain: filmWPerK.map((film) => film * kelvinPerWattMinute),
    chamberLoss: (lossWPerK + drawWPerK) * kelvinPerWattMinute,
    kelvinPerWattMinute,
  };
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
