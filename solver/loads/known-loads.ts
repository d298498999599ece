/**
 * What is known of some loads tells others: what shares a firing shares it without some of its pans as well, and what
 * cannot share one cannot with more of them. Hardly ever wrong (a pan more may keep light metal from overbaking), and
 * told in microseconds where laying a load out and asking whether it bakes takes a fifth of a millisecond.
 */

/** Loads of one oven as kinds, ascending, and whether they can share a firing. */
export class KnownLoads {
  readonly #shared = new LoadList();
  readonly #refused = new LoadList();

  /** Undefined where no known load tells. */
  told(kinds: readonly number[]): boolean | undefined {
    if (this.#shared.someAround(kinds)) return true;
    return this.#refused.someWithin(kinds) ? false : undefined;
  }

  note(kinds: readonly number[], isShared: boolean): void {
    if (isShared) this.#shared.add(kinds);
    else this.#refused.add(kinds);
  }
}

/** Loads with their marks, which tell most of them apart without a closer look. */
class LoadList {
  readonly #loads: (readonly number[])[] = [];
  /** One of each load, in their order; there is room for more than there are. */
  #marks = new Int32Array(64);
  /** Per kind: the loads it is in, and those it is the first of. */
  readonly #having: number[][] = [];
  readonly #startingWith: number[][] = [];

  add(kinds: readonly number[]): void {
    const at = this.#loads.length;
    if (at === this.#marks.length) {
      const wider = new Int32Array(2 * this.#marks.length);
      wider.set(this.#marks);
      this.#marks = wider;
    }
    this.#marks[at] = marksOf(kinds);
    this.#loads.push(kinds);
    for (const kind of new Set(kinds)) (this.#having[kind] ??= []).push(at);
    (this.#startingWith[kinds[0]!] ??= []).push(at);
  }

  someWithin(kinds: readonly number[]): boolean {
    const others = ~marksOf(kinds);
    for (let first = 0; first < kinds.length; first++) {
      if (first > 0 && kinds[first] === kinds[first - 1]) continue;
      for (const at of this.#startingWith[kinds[first]!] ?? NONE)
        if ((this.#marks[at]! & others) === 0 && isWithin(this.#loads[at]!, kinds)) return true;
    }
    return false;
  }

  someAround(kinds: readonly number[]): boolean {
    const own = marksOf(kinds);
    let fewest: readonly number[] | undefined;
    for (const kind of kinds) {
      const having = this.#having[kind] ?? NONE;
      if (fewest === undefined || having.length < fewest.length) fewest = having;
    }
    for (const at of fewest ?? NONE)
      if ((own & ~this.#marks[at]!) === 0 && isWithin(kinds, this.#loads[at]!)) return true;
    return false;
  }
}

const NONE: readonly number[] = [];

/** So many of the 32 bits tell which kinds are in, the others which are in more than once; kinds far apart share bits. */
const ONCE_BITS = 22;

function marksOf(kinds: readonly number[]): number {
  let marks = 0;
  for (let at = 0; at < kinds.length; at++) {
    const kind = kinds[at]!;
    const isAgain = at > 0 && kinds[at - 1] === kind;
    marks |= 1 << (isAgain ? ONCE_BITS + (kind % (32 - ONCE_BITS)) : kind % ONCE_BITS);
  }
  return marks;
}

/** Both ascending; of each kind of `few` there are as many in `many`, or more. */
function isWithin(few: readonly number[], many: readonly number[]): boolean {
  if (few.length > many.length) return false;
  let at = 0;
  for (const kind of few) {
    while (at < many.length && many[at]! < kind) at++;
    if (many[at] !== kind) return false;
    at++;
  }
  return true;
}
