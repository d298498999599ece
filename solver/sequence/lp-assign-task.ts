/**
 * The question of the re-assignment LP for one timed sequence: the loads of a stretch of it stand, with their doors;
 * which pan goes into which of them? `lp-reassign.ts` asks it.
 */
import type { BakeKind, DayModel } from "../day/day-model.ts";
import type { AssignTask, Choice } from "../lp-models/assign.ts";
import type { Oven } from "../shop.ts";
import type { Placed, PlacedLoad } from "./lp-placed.ts";
import type { Timetable } from "./timetable.ts";

export interface ReassignTask {
  readonly task: AssignTask;
  readonly pans: readonly FreePan[];
}

/** A pan with bakes to settle, and for each choice the placed load of each of them; -1 leaves it out. */
export interface FreePan {
  readonly pan: number;
  readonly bakes: readonly number[];
  readonly ways: readonly (readonly number[])[];
}

/** Loads of the stretch, as indices into the placed loads. Undefined where it has no choice to offer. */
export function reassignTask(timetable: Timetable, placed: Placed, open: readonly number[]): ReassignTask | undefined {
  const stretch = new Stretch(timetable, placed, open);
  const shared = new Map<string, { readonly choices: Choice[]; readonly ways: number[][] }>();
  const pans: FreePan[] = [];
  const choices: (readonly Choice[])[] = [];
  timetable.day.pans.forEach((_, pan) => {
    const bakes = stretch.freeBakes(pan);
    if (bakes.length === 0) return;
    const key = stretch.likeness(pan, bakes);
    let own = shared.get(key);
    if (own === undefined) shared.set(key, (own = stretch.choicesOf(pan, bakes)));
    if (own.choices.length === 0) return;
    pans.push({ pan, bakes, ways: own.ways });
    choices.push(own.choices);
  });
  if (pans.length === 0) return undefined;
  return { task: { pans: choices, rooms: stretch.rooms() }, pans };
}

/** Share of the shelves' area that the plain packing mostly fills. */
const FILL = 0.62;
/** Money per hour that an earlier bake is worth where lateness does not say. */
const EARLY_PER_HOUR = 1e-3;
const ROOMS_PER_LOAD = 3;

class Stretch {
  readonly #timetable: Timetable;
  readonly #placed: Placed;
  readonly #open: readonly number[];
  /** Per bake: its placed load, -1 where it has none. */
  readonly #loadOf: Int32Array;
  readonly #joins = new Map<string, boolean>();

  constructor(timetable: Timetable, placed: Placed, open: readonly number[]) {
    this.#timetable = timetable;
    this.#placed = placed;
    this.#open = [...open].sort((a, b) => this.#load(a).slot.doorOpens - this.#load(b).slot.doorOpens || a - b);
    this.#loadOf = new Int32Array(timetable.day.bakes.length).fill(-1);
    placed.loads.forEach(({ bakes }, at) => {
      for (const bake of bakes) this.#loadOf[bake] = at;
    });
  }

  /** The bakes of a pan that are in the stretch or in no load, in their order. */
  freeBakes(pan: number): number[] {
    return this.#day.pans[pan]!.due.flatMap(({ bake }) => (bake !== null && this.#isFree(bake) ? [bake] : []));
  }

  /** Equal for pans that have the same choices at the same cost. */
  likeness(pan: number, bakes: readonly number[]): string {
    const { line } = this.#day.pans[pan]!;
    const fixed = this.#day.pans[pan]!.due.map(({ bake }) =>
      bake === null ? "h" : bakes.includes(bake) ? "f" : this.#loadOf[bake],
    );
    return `${line}/${fixed.join()}`;
  }

  choicesOf(pan: number, bakes: readonly number[]): { choices: Choice[]; ways: number[][] } {
    const choices: Choice[] = [];
    const ways: number[][] = [];
    for (const way of this.#ways(pan, bakes, [], this.#startOf(pan))) {
      const takes = way.flatMap((at, index) => (at < 0 ? [] : this.#takes(at, this.#kind(bakes[index]!))));
      choices.push({ cost: this.#costOf(pan, bakes, way), takes });
      ways.push(way);
    }
    return { choices, ways };
  }

  /** Room for shelves, mass and solvent in each load of the stretch. */
  rooms(): number[] {
    return this.#open.flatMap((at) => {
      const { bakes, recipe } = this.#load(at);
      const oven = this.#day.request.ovens[recipe.oven]!;
      const used = bakes.reduce((sum, bake) => sum + spaceOf(this.#kind(bake), oven), 0);
      return [Math.max(used, roomOf(oven)), finite(oven.maxLoadKg), finite(oven.maxSolventMl)];
    });
  }

  get #day(): DayModel {
    return this.#timetable.day;
  }

  #load(at: number): PlacedLoad {
    return this.#placed.loads[at]!;
  }

  #kind(bake: number): BakeKind {
    return this.#day.kinds[this.#day.bakes[bake]!.kind]!;
  }

  #isFree(bake: number): boolean {
    const at = this.#loadOf[bake]!;
    return at < 0 || this.#open.includes(at);
  }

  #startOf(pan: number): number {
    const { request, pans } = this.#day;
    return Math.max(request.lines[pans[pan]!.line]!.readyMinute, request.planFromMinute);
  }

  /** Every way to bake the rest of the pan's coats from the one after those settled, `ready` being when it may begin. */
  *#ways(pan: number, bakes: readonly number[], settled: readonly number[], ready: number): Generator<number[]> {
    const bake = bakes[settled.length];
    if (bake === undefined) {
      yield [...settled];
      return;
    }
    const from = this.#earliestDoor(bake, this.#releasedBefore(bake, ready));
    const until = this.#doorOfNextFixed(bake);
    for (const at of this.#open) {
      const { doorOpens } = this.#load(at).slot;
      if (at !== this.#loadOf[bake] && (doorOpens < from || doorOpens >= until || !this.#mayJoin(at, bake))) continue;
      if (at === this.#loadOf[bake] && settled.length > 0 && doorOpens < from) continue;
      yield* this.#ways(pan, bakes, [...settled, at], this.#released(at, bake));
    }
    if (this.#loadOf[bake]! < 0) yield [...settled, ...bakes.slice(settled.length).map(() => -1)];
  }

  /** When the pan may go on after a bake in that load. */
  #released(at: number, bake: number): number {
    const { slot, bakes, recipe } = this.#load(at);
    const { kind } = this.#day.bakes[bake]!;
    const like = Math.max(
      0,
      bakes.findIndex((other) => this.#day.bakes[other]!.kind === kind),
    );
    return this.#timetable.cooledAt(recipe, slot, like) + this.#day.kinds[kind]!.coat.inspectMinutes;
  }

  /** A coat before this one that stays where it is may hold the pan longer. */
  #releasedBefore(bake: number, ready: number): number {
    const { pan, step } = this.#day.bakes[bake]!;
    const before = this.#day.pans[pan]!.due[step - 1]?.bake ?? null;
    if (before === null || this.#isFree(before)) return ready;
    return Math.max(ready, this.#released(this.#loadOf[before]!, before));
  }

  #earliestDoor(bake: number, release: number): number {
    const { pan, step } = this.#day.bakes[bake]!;
    const line = this.#day.request.lines[this.#day.pans[pan]!.line]!;
    const { coat } = this.#kind(bake);
    const prep = step === 0 ? line.prepMinutes : 0;
    const spray = coat.sprayMinutes === 0 || (step === 0 && line.sprayed) ? 0 : coat.sprayMinutes + coat.flashMinutes;
    return release + prep + spray;
  }

  #doorOfNextFixed(bake: number): number {
    const { pan, step } = this.#day.bakes[bake]!;
    for (const { bake: later } of this.#day.pans[pan]!.due.slice(step + 1))
      if (later !== null && !this.#isFree(later)) return this.#load(this.#loadOf[later]!).slot.doorOpens;
    return Infinity;
  }

  #mayJoin(at: number, bake: number): boolean {
    const { kind } = this.#day.bakes[bake]!;
    const key = `${at}/${kind}`;
    const known = this.#joins.get(key);
    if (known !== undefined) return known;
    const { recipe } = this.#load(at);
    const { coat, ovens } = this.#day.kinds[kind]!;
    const may = ovens.includes(recipe.oven) && recipe.kinds.some((other) => this.#day.kinds[other]!.coat === coat);
    this.#joins.set(key, may);
    return may;
  }

  #takes(at: number, kind: BakeKind): [number, number][] {
    const first = this.#open.indexOf(at) * ROOMS_PER_LOAD;
    const oven = this.#day.request.ovens[this.#load(at).recipe.oven]!;
    return [
      [first, spaceOf(kind, oven)],
      [first + 1, kind.line.massKg],
      [first + 2, kind.solventMl],
    ];
  }

  /** The pan's share of its ticket's lateness, what leaving it costs, and a trifle for being early. */
  #costOf(pan: number, bakes: readonly number[], way: readonly number[]): number {
    const { request, pans, tickets } = this.#day;
    const { ticket, due, line } = pans[pan]!;
    const { promised, latePerHour, pans: members } = tickets[ticket]!;
    const left = way.filter((at) => at < 0).length;
    const last = way.at(-1)!;
    const done = last < 0 ? request.nextOpenMinute : this.#released(last, bakes.at(-1)!) + request.finishMinutes;
    const isLast = due.at(-1)!.bake === bakes.at(-1) || last < 0;
    const late = promised === null || !isLast ? 0 : Math.max(0, done - promised) * (latePerHour / members.length / 60);
    const early =
      way.reduce((sum, at) => sum + (at < 0 ? 0 : this.#load(at).slot.doorOpens), 0) * (EARLY_PER_HOUR / 60);
    return late + early + (left * request.lines[line]!.leftOverCost) / due.length;
  }
}

/** What a pan takes of an oven's room, dm²: its footprint with the gap it keeps. */
function spaceOf(kind: BakeKind, { space }: Oven): number {
  if (space.kind === "area") return kind.areaDm2;
  const { shape } = kind.line;
  if (shape.kind === "area") return kind.areaDm2;
  const width = (shape.kind === "disc" ? shape.diameterCm : shape.widthCm) + space.gapCm;
  const depth = (shape.kind === "disc" ? shape.diameterCm : shape.depthCm) + space.gapCm;
  return ((shape.kind === "disc" ? Math.PI / 4 : 1) * width * depth) / 100;
}

function roomOf({ space }: Oven): number {
  if (space.kind === "area") return space.dm2;
  return (FILL * space.shelves.reduce((sum, { widthCm, depthCm }) => sum + widthCm * depthCm, 0)) / 100;
}

function finite(size: number): number {
  return Number.isFinite(size) ? size : 1e9;
}
