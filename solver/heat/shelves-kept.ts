/**
 * On which shelves the pans of a load keep their windows, firing by firing: slow metal soaks in time on warm shelves only, quick
 * metal overbakes on them first. All pans meet one chamber, and where they stand changes little of what they draw from it, so that
 * one run tells of all shelves.
 */
import type { ThermalCycle } from "../shop.ts";
import type { BurnRun, HeatUp } from "./burn-run.ts";
import { burnRun, heatUp, LONGEST_MINUTES, rowAt } from "./burn-run.ts";
import { doorMinute } from "./coast.ts";
import { peekMinute } from "./glide.ts";
import type { LoadHeat } from "./load-heat.ts";
import { loadHeat } from "./load-heat.ts";
import type { Member } from "./members.ts";
import { firstBurnerOff } from "./quickest.ts";

/** Minutes are not looked into here, and pans on other shelves draw a little more or less: so much soak is to spare. */
const TO_SPARE_MINUTES = 0.05;
/** Burner-offs looked at per set-point. */
const MOST_BURNER_OFFS = 60;
const TINY = 1e-9;

/**
 * For every firing from a chamber at `chamberAtOpenC` that some shelves allow: per member its offsets as bits, in the order of
 * `offsetsC` (30 at most), none without any. Members have an offset of 0 and stand for all pans of a kind. Nothing else may be
 * fired before the last answer.
 */
export function* shelvesKept(
  cycle: ThermalCycle,
  ambientC: number,
  members: readonly Member[],
  offsetsC: readonly number[],
  chamberAtOpenC: number,
): Generator<readonly number[], void> {
  const up = heatUp(loadHeat(cycle, ambientC, members), chamberAtOpenC);
  const neededC = Math.max(...members.map(({ lowC }) => lowC + cycle.guardC - Math.max(...offsetsC)));
  const lowC = chamberAtOpenC <= neededC ? Math.max(ambientC, neededC) : ambientC;
  const bakes = new Bakes(up, offsetsC);
  const step = cycle.setPointStepC;
  for (let at = Math.ceil(lowC / step - TINY); at * step <= cycle.setPointMaxC + TINY; at++) {
    const run = burnRun(up, at * step - ambientC, LONGEST_MINUTES);
    const first = firstBurnerOff(run);
    if (first === undefined) return;
    const { earlyMinutes, slackMinutes } = cycle;
    const early = bakes.upTo(run, Math.max(0, first - earlyMinutes));
    const late = bakes.upTo(run, first + slackMinutes);
    for (let burnerOff = first; burnerOff < first + MOST_BURNER_OFFS; burnerOff++) {
      bakes.burn(late, run, burnerOff + slackMinutes);
      const told = bakes.told(late).notOverbaked.includes(0) ? undefined : toldAt(run, bakes, late);
      if (told === undefined || told.notOverbaked.includes(0)) {
        // Higher set-points take longer to reach and overbake sooner.
        if (burnerOff === first && !run.startsAbove) return;
        break;
      }
      bakes.burn(early, run, burnerOff - earlyMinutes);
      const soaked = toldAt(run, bakes, early);
      // A minute of fire is little more than a minute of soak.
      if (soaked !== undefined && soaked.shortMinutes > 2) burnerOff += Math.floor(soaked.shortMinutes / 2) - 1;
      const kept = soaked && told.notOverbaked.map((bits, member) => bits & soaked.soaked[member]!);
      if (kept?.every((bits) => bits !== 0)) yield kept;
    }
  }
}

/** Per member the offsets, as bits, on which it has soaked enough, and on which it is neither too hot nor in its window too long. */
interface Told {
  readonly soaked: readonly number[];
  readonly notOverbaked: readonly number[];
  /** Soak that the member with least of it lacks on its best shelf, minutes; none where negative. */
  readonly shortMinutes: number;
}

/**
 * What the metal of a load has gone through by a minute: rows of a number per member and shelf offset, first the minutes at or above
 * lowC, then those at or above lowC + guardC, then the highest node.
 */
interface Tallies {
  minute: number;
  readonly rows: Float64Array;
}

/** Unloaded at the first minute at which the door may open after a burner-off at `burnt.minute`; undefined where that is never. */
function toldAt(run: BurnRun, bakes: Bakes, burnt: Tallies): Told | undefined {
  const { heat } = run.heatUp;
  const door = doorMinute(run, burnt.minute, 0, 0);
  if (door === Infinity) return undefined;
  if (door === burnt.minute) return bakes.told(burnt);
  const tallies = { minute: burnt.minute, rows: burnt.rows.slice() };
  const { rows, at } = rowAt(run, burnt.minute);
  const state = rows.slice(at, at + heat.members.length + 1);
  while (tallies.minute < door) {
    const next = peekMinute(heat.coast, state, 0, 0);
    bakes.note(tallies, state, 0, next, 0);
    for (let node = 0; node < state.length; node++) state[node] = next[node]!;
  }
  return bakes.told(tallies);
}

class Bakes {
  readonly #heat: LoadHeat;
  readonly #offsetsC: readonly number[];
  readonly #cells: number;
  /** By minute, under full fire. */
  readonly #underFire: Tallies[];
  readonly #before: Float64Array;
  /** Per member and minute: how much of its shelf's offset the metal has taken on. */
  readonly #taken: readonly number[][];

  constructor({ heat }: HeatUp, offsetsC: readonly number[]) {
    this.#heat = heat;
    this.#offsetsC = offsetsC;
    this.#cells = heat.members.length * offsetsC.length;
    const rows = new Float64Array(3 * this.#cells);
    this.#underFire = [{ minute: 0, rows: rows.fill(-Infinity, 2 * this.#cells) }];
    this.#before = new Float64Array(heat.members.length + 1);
    this.#taken = heat.members.map(() => []);
  }

  /** By that minute of a run. */
  upTo(run: BurnRun, minute: number): Tallies {
    // Up to there the rows of all runs are the same; a chamber that falls has its own from the purge on.
    const shared = Math.min(minute, run.startsAbove ? Math.floor(this.#heat.cycle.purgeMinutes) : run.branch);
    while (this.#underFire.length <= shared) {
      const last = this.#underFire.at(-1)!;
      const next = { minute: last.minute, rows: last.rows.slice() };
      this.burn(next, run, next.minute + 1);
      this.#underFire.push(next);
    }
    const tallies = { minute: shared, rows: this.#underFire[shared]!.rows.slice() };
    this.burn(tallies, run, minute);
    return tallies;
  }

  /** On to a later minute with the burner on. */
  burn(tallies: Tallies, run: BurnRun, until: number): void {
    while (tallies.minute < until) {
      const from = rowAt(run, tallies.minute);
      for (let node = 0; node < this.#before.length; node++) this.#before[node] = from.rows[from.at + node]!;
      const { rows, at } = rowAt(run, tallies.minute + 1);
      this.note(tallies, this.#before, 0, rows, at);
    }
  }

  /** A minute from one state to the next. Metal on a shelf of another offset began as cold and is that much warmer in the end. */
  note(tallies: Tallies, from: Float64Array, fromAt: number, to: Float64Array, toAt: number): void {
    const { members, lowNode, guardedNode } = this.#heat;
    const { rows, minute } = tallies;
    const width = this.#offsetsC.length;
    for (let member = 0; member < members.length; member++) {
      const taken = this.#takenBy(member, minute);
      const takenAfter = this.#takenBy(member, minute + 1);
      for (let offset = 0; offset < width; offset++) {
        const cell = member * width + offset;
        const before = from[fromAt + 1 + member]! + this.#offsetsC[offset]! * taken;
        const after = to[toAt + 1 + member]! + this.#offsetsC[offset]! * takenAfter;
        rows[cell]! += shareAbove(lowNode[member]!, before, after);
        rows[this.#cells + cell]! += shareAbove(guardedNode[member]!, before, after);
        if (after > rows[2 * this.#cells + cell]!) rows[2 * this.#cells + cell] = after;
      }
    }
    tallies.minute++;
  }

  #takenBy(member: number, minute: number): number {
    const { burn, cycle } = this.#heat;
    const rate = burn.network.memberRate[member]!;
    return (this.#taken[member]![minute] ??= 1 - Math.exp(-rate * (minute + cycle.loadMinutes / 2)));
  }

  told({ rows }: Tallies): Told {
    const { members, highNode } = this.#heat;
    const width = this.#offsetsC.length;
    const soaked = members.map(() => 0);
    const notOverbaked = members.map(() => 0);
    const short = members.map(() => Infinity);
    for (let cell = 0; cell < this.#cells; cell++) {
      const member = Math.floor(cell / width);
      const bit = 1 << (cell % width);
      const { soakLeastMinutes, soakMostMinutes } = members[member]!;
      const lacks = soakLeastMinutes + TO_SPARE_MINUTES - rows[this.#cells + cell]!;
      if (lacks <= 0) soaked[member]! |= bit;
      short[member] = Math.min(short[member]!, lacks);
      if (rows[cell]! > soakMostMinutes - TO_SPARE_MINUTES) continue;
      if (rows[2 * this.#cells + cell]! <= highNode[member]!) notOverbaked[member]! |= bit;
    }
    return { soaked, notOverbaked, shortMinutes: Math.max(...short) };
  }
}

/** Share of a minute in which a node that moves evenly is at the level or above. */
function shareAbove(level: number, from: number, to: number): number {
  if (from >= level && to >= level) return 1;
  if (from < level && to < level) return 0;
  const met = (level - from) / (to - from);
  return from >= level ? met : 1 - met;
}
