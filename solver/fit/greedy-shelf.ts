/**
 * Shelves laid pan by pan by one rule, remembered: where the next pan goes depends on nothing but those laid before it, and loads
 * that differ in a few pans share most of their shelves.
 */
import { bestSpot, type Centre, type Rule } from "./greedy.ts";
import { emptyLaid, lay, type Laid } from "./laid.ts";
import { canTurn, turnedOutline, type FloorSize, type Outline } from "./outline.ts";

/** What lies on a shelf: the pan laid last, on what was there before. */
export interface GreedyShelf {
  readonly floor: FloorSize;
  readonly rule: Rule;
  /** Undefined on an empty shelf. */
  readonly last: LaidLast | undefined;
  /** With one pan more of that outline, as asked so far. */
  readonly next: Map<Outline, GreedyShelf>;
  /** Outlines that found no place, without those that need the room of another. */
  failed: Outline[];
}

interface LaidLast {
  readonly before: GreedyShelf;
  readonly outline: Outline;
  readonly centre: Centre;
}

/** Some 400 bytes each. */
const MOST_SHELVES = 30_000;
let shelves = 0;
const empty: GreedyShelf[] = [];

export function emptyShelf(floor: FloorSize, rule: Rule): GreedyShelf {
  if (shelves > MOST_SHELVES) {
    empty.length = 0;
    shelves = 0;
  }
  const known = empty.find((shelf) => shelf.rule === rule && isAlike(shelf.floor, floor));
  if (known !== undefined) return known;
  const made: GreedyShelf = { floor, rule, last: undefined, next: new Map(), failed: [] };
  empty.push(made);
  return made;
}

/** The shelf with one pan more, on the free touch point that its rule likes best; undefined where there is none. */
export function laidNext(shelf: GreedyShelf, outline: Outline): GreedyShelf | undefined {
  const known = shelf.next.get(outline);
  if (known !== undefined) return known;
  if (isFullFor(shelf, outline)) return undefined;
  const centre = bestSpot(laidOn(shelf), outline, shelf.rule);
  if (centre === undefined) {
    shelf.failed = [...shelf.failed.filter((other) => !covers(other, outline)), outline];
    return undefined;
  }
  const last = { before: shelf, outline, centre };
  const after: GreedyShelf = { floor: shelf.floor, rule: shelf.rule, last, next: new Map(), failed: [] };
  shelf.next.set(outline, after);
  shelves++;
  return after;
}

/** The outline or one that needs no more room has found no place; a shelf only gets fuller. */
function isFullFor(shelf: GreedyShelf, outline: Outline): boolean {
  for (let at: GreedyShelf | undefined = shelf; at !== undefined; at = at.last?.before)
    for (const other of at.failed) if (covers(outline, other)) return true;
  return false;
}

/** Of all pans laid, in the order of laying. */
export function centresOn(shelf: GreedyShelf): Centre[] {
  const centres: Centre[] = [];
  for (let { last } = shelf; last !== undefined; { last } = last.before) centres.push(last.centre);
  return centres.reverse();
}

function laidOn({ floor, last }: GreedyShelf): Laid {
  if (last === undefined) return emptyLaid(floor);
  const { before, outline, centre } = last;
  const laid = laidOn(before);
  lay(laid, centre.turned && canTurn(outline) ? turnedOutline(outline) : outline, centre.x, centre.y);
  return laid;
}

function isAlike(one: FloorSize, other: FloorSize): boolean {
  return one.width === other.width && one.depth === other.depth && one.slack === other.slack;
}

/** Whether the first outline needs at least the room of the second. */
function covers(first: Outline, second: Outline): boolean {
  return first.round >= second.round && first.coreX >= second.coreX && first.coreY >= second.coreY;
}
