/**
 * What is known of some loads tells others: what shares a firing shares it without some of its pans as well, and what
 * cannot share one cannot with more. Hardly ever wrong (a pan more may save a light load from overbaking), and an answer
 * takes microseconds where laying a load out and asking whether it bakes takes a fifth of a millisecond.
 */

/** Kinds of one oven's loads, ascending, and whether they can share a firing. */
export class KnownLoads {
  readonly #shared = new LoadList();
  readonly #refused = new LoadList();

  /** Undefined where no known load tells. */
  told(kinds: readonly number[]): boolean | undefined {
    if (this.#shared.someAround(kinds)) return true;
    return this.#refused.someWithin(kinds) ? false : undefined;
  }

  /** `kinds`: not told so far. */
  note(kinds: readonly number[], isShared: boolean): void {
    if (isShared) this.#shared.add(kinds);
    else this.#refused.add(kinds);
  }
}

/** Loads of which none contains another, each with its marks: most are told apart by these alone. */
class LoadList {
  readonly #loads: (readonly number[])[] = [];
  /** Marks of each load, in the same order; room for more than there are. */
  #marks = new Int32Array(64);

  add(kinds: readonly number[]): void {
    if (this.#loads.length === this.#marks.length) {
      const wider = new Int32Array(2 * this.#marks.length);
      wider.set(this.#marks);
      this.#marks = wider;
    }
    this.#marks[this.#loads.length] = marksOf(kinds);
    this.#loads.push(kinds);
  }

  someWithin(kinds: readonly number[]): boolean {
    const others = ~marksOf(kinds);
    const marks = this.#marks;
    for (let at = 0; at < this.#loads.length; at++)
      if ((marks[at]! & others) === 0 && isWithin(this.#loads[at]!, kinds)) return true;
    return false;
  }

  someAround(kinds: readonly number[]): boolean {
    const own = marksOf(kinds);
    const marks = this.#marks;
    for (let at = 0; at < this.#loads.length; at++)
      if ((own & ~marks[at]!) === 0 && isWithin(kinds, this.#loads[at]!)) return true;
    return false;
  }

  drop(isDropped: (load: readonly number[]) => boolean): void {
    let kept = 0;
    for (const load of this.#loads) {
      if (isDropped(load)) continue;
      this.#marks[kept] = marksOf(load);
      this.#loads[kept] = load;
      kept++;
    }
    this.#loads.length = kept;
  }
}

/** A bit for each kind that is in, and one for each that is in more than once; kinds far apart may have the same. */
function marksOf(kinds: readonly number[]): number {
  let marks = 0;
  for (let at = 0; at < kinds.length; at++) {
    const kind = kinds[at]!;
    marks |= 1 << (at > 0 && kinds[at - 1] === kind ? AGAIN + (kind % (32 - AGAIN)) : kind % AGAIN);
  }
  return marks;
}
const AGAIN = 22;

/** Both ascending; as many of each kind or more are in `many`. */
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
