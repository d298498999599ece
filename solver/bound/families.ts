/** Kinds that may share firings, directly or by others, are a family; two families never share one. */
import type { DayModel } from "../day/day-model.ts";
import type { KindTimes } from "./kind-times.ts";
import type { Label } from "./label.ts";
import type { LoadSets } from "./load-sets.ts";
import type { StaffedClock } from "./staffed-clock.ts";

const TINY = 1e-6;

export class Families {
  readonly #day: DayModel;
  readonly #of = new Map<number, number>();
  readonly #packed = new Map<number, number>();
  readonly #spent = new Map<number, number>();
  readonly #shares = new Map<number, readonly number[]>();
  readonly #count: number;
  /** Per family, of the bakes added: latest door opening with its minutes, least minutes, least gas, shares of a load. */
  readonly #latest: Float64Array;
  readonly #latestMinutes: Float64Array;
  readonly #leastMinutes: Float64Array;
  readonly #leastKWh: Float64Array;
  readonly #filled: Float64Array;
  readonly #order: number[] = [];
  #soonest = Infinity;

  constructor(sets: LoadSets, times: ReadonlyMap<number, readonly KindTimes[]>) {
    this.#day = sets.day;
    const kinds = [...times.keys()];
    let count = 0;
    for (const kind of kinds) {
      if (this.#of.has(kind)) continue;
      const queue = [kind];
      this.#of.set(kind, count);
      for (let one = queue.pop(); one !== undefined; one = queue.pop())
        for (const other of kinds) {
          if (this.#of.has(other) || !maySometimes(sets, one, other)) continue;
          this.#of.set(other, count);
          queue.push(other);
        }
      count++;
    }
    for (const kind of kinds) {
      const own = times.get(kind)!;
      this.#packed.set(kind, Math.min(...own.map(({ packedMinutes }) => packedMinutes)));
      this.#spent.set(kind, Math.min(...own.map(({ spentKWh }) => spentKWh)));
      this.#shares.set(kind, sharesOf(this.#day, kind));
    }
    this.#count = count;
    this.#latest = new Float64Array(count);
    this.#latestMinutes = new Float64Array(count);
    this.#leastMinutes = new Float64Array(count);
    this.#leastKWh = new Float64Array(count);
    this.#filled = new Float64Array(3 * count);
  }

  begin(): void {
    this.#latest.fill(-Infinity);
    this.#leastMinutes.fill(Infinity);
    this.#leastKWh.fill(Infinity);
    this.#filled.fill(0);
    this.#soonest = Infinity;
  }

  add(kind: number, open: number, _label: Label): void {
    const family = this.#of.get(kind)!;
    const minutes = this.#packed.get(kind)!;
    if (open > this.#latest[family]! || (open === this.#latest[family]! && minutes > this.#latestMinutes[family]!)) {
      this.#latest[family] = open;
      this.#latestMinutes[family] = minutes;
    }
    if (open < this.#soonest) this.#soonest = open;
    this.#leastMinutes[family] = Math.min(this.#leastMinutes[family]!, minutes);
    this.#leastKWh[family] = Math.min(this.#leastKWh[family]!, this.#spent.get(kind)!);
    const shares = this.#shares.get(kind)!;
    for (let at = 0; at < 3; at++) this.#filled[3 * family + at]! += shares[at]!;
  }

  gasKWh(): number {
    let sum = 0;
    for (let family = 0; family < this.#count; family++)
      if (this.#leastKWh[family]! < Infinity) sum += this.#loads(family) * this.#leastKWh[family]!;
    return sum;
  }

  /** `clock`: given where ovens run in staffed time only. */
  finish(label: Label, clock: StaffedClock | undefined): number {
    const ovens = label.free.length;
    const after = (from: number, minutes: number): number =>
      clock === undefined ? from + minutes / ovens : clock.minuteOf(clock.read(from) + minutes / ovens);
    const order = this.#order;
    order.length = 0;
    let all = 0;
    for (let family = 0; family < this.#count; family++) {
      if (this.#latest[family] === -Infinity) continue;
      order.push(family);
      all += (this.#loads(family) - 1) * this.#leastMinutes[family]! + this.#latestMinutes[family]!;
    }
    if (order.length === 0) return -Infinity;
    const idle = label.notBefore;
    let free = 0;
    for (let oven = 0; oven < ovens; oven++) free += Math.max(label.free[oven]!, this.#soonest, idle) / ovens;
    let finish = after(ovens === 1 ? free : Math.max(idle, Math.min(...label.free)), ovens === 1 ? all : 0);
    if (ovens > 1 && clock === undefined) finish = Math.max(finish, free + all / ovens);
    order.sort((a, b) => this.#latest[b]! - this.#latest[a]!);
    let minutes = 0;
    for (const family of order) {
      minutes += this.#latestMinutes[family]!;
      finish = Math.max(finish, after(this.#latest[family]!, minutes));
    }
    return finish;
  }

  #loads(family: number): number {
    const most = Math.max(this.#filled[3 * family]!, this.#filled[3 * family + 1]!, this.#filled[3 * family + 2]!);
    return Math.max(1, Math.ceil(most - TINY));
  }
}

function maySometimes(sets: LoadSets, one: number, other: number): boolean {
  const { kinds } = sets.day;
  return kinds[one]!.ovens.some((oven) => kinds[other]!.ovens.includes(oven) && sets.pair(oven, one, other));
}

/** Of the roomiest oven: share of the floor, of the mass, of the solvent that one pan takes. */
function sharesOf(day: DayModel, kind: number): number[] {
  const { line, areaDm2, solventMl } = day.kinds[kind]!;
  const { ovens } = day.request;
  const shelves = ovens.some((oven) => oven.space.kind === "shelves");
  const floor = shelves && line.shape.kind === "disc" ? areaDm2 * (Math.PI / 4) : areaDm2;
  const room = Math.max(
    ...ovens.map(({ space }) =>
      space.kind === "area"
        ? space.dm2
        : space.shelves.reduce((sum, one) => sum + (one.widthCm * one.depthCm) / 100, 0),
    ),
  );
  return [
    floor / room,
    line.massKg / Math.max(...ovens.map((oven) => oven.maxLoadKg)),
    solventMl / Math.max(...ovens.map((oven) => oven.maxSolventMl)),
  ];
}
