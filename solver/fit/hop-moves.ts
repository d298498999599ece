/** The hops: trading places within a shelf or across two, going to a hole, turning. */
import type { Budget } from "./budget.ts";
import { bears, draftOf, type Draft, type Rest } from "./hop-state.ts";
import { canTurn, turnedOutline, type Outline } from "./outline.ts";
import type { Freight, Rack, Tray } from "./rack.ts";
import type { Dice } from "./seeded.ts";

const tradeShare = 0.85;
const turnShare = 0.3;
/** How often the pan to turn or trade is one that hurts. */
const painShare = 0.55;
const holeDraws = 60;

export interface Changed {
  readonly at: number;
  readonly draft: Draft;
}

export interface Hopping {
  readonly freight: Freight;
  readonly trays: readonly Tray[];
  readonly dice: Dice;
  /** Pans by size, smallest first, and each pan's rank in it. */
  readonly bySize: readonly number[];
  readonly rank: readonly number[];
  readonly size: readonly number[];
  readonly turnable: boolean;
  /** Layout hopped from. */
  rests: Rest[];
  /** Drafts of the shelves that one hop changes; undefined where the hop drawn was not allowed. */
  hop(budget: Budget): Changed[] | undefined;
}

export function hopping(freight: Freight, trays: readonly Tray[], dice: Dice): Hopping {
  const size = freight.outlines.map((outline) => outline.coreX + outline.coreY + 2 * outline.round);
  const bySize = freight.outlines.map((_, i) => i).sort((i, j) => size[i]! - size[j]! || i - j);
  const rank: number[] = [];
  bySize.forEach((i, at) => (rank[i] = at));
  const state: Hopping = {
    freight,
    trays,
    dice,
    bySize,
    rank,
    size,
    turnable: freight.outlines.some(canTurn),
    rests: [],
    hop: (budget) => hop(state, budget),
  };
  return state;
}

/** Pans dealt out by chance, large ones first, each to the allowed shelf with most room left; undefined on bad luck. */
export function scattered(state: Hopping): Draft[] | undefined {
  const { trays, dice, size } = state;
  const drafts: Draft[] = trays.map(() => ({ pans: [], turned: [], x: [], y: [] }));
  const key = size.map((own) => own * (0.8 + 0.4 * dice.next()));
  const order = size.map((_, i) => i).sort((i, j) => key[j]! - key[i]!);
  return dealt(state, drafts, order) ? drafts : undefined;
}

/** What lies on the rack, with its pool dealt out on top; undefined where the shelves cannot bear that. */
export function startedFrom(state: Hopping, rack: Rack): Draft[] | undefined {
  const drafts = rack.trays.map((tray) => ({
    pans: tray.members.slice(),
    turned: tray.centres.map((centre) => centre.turned),
    x: tray.centres.map((centre) => centre.x),
    y: tray.centres.map((centre) => centre.y),
  }));
  return dealt(state, drafts, rack.pool) ? drafts : undefined;
}

function dealt(state: Hopping, drafts: readonly Draft[], pans: readonly number[]): boolean {
  const { freight, trays, size } = state;
  const room = trays.map(
    (tray, at) =>
      tray.floor.width * tray.floor.depth - drafts[at]!.pans.reduce((sum, i) => sum + size[i]! * size[i]!, 0),
  );
  for (const pan of pans) {
    const open = freight.allowed[pan]!.filter((at) => bears(freight, trays[at]!, [...drafts[at]!.pans, pan]));
    if (open.length === 0) return false;
    const at = open.reduce((most, other) => (room[other]! > room[most]! ? other : most));
    room[at]! -= size[pan]! * size[pan]!;
    lieAnywhere(state, trays[at]!, drafts[at]!, pan);
  }
  return true;
}

function lieAnywhere(state: Hopping, tray: Tray, draft: Draft, pan: number): void {
  const outline = state.freight.outlines[pan]!;
  const turned = canTurn(outline) && state.dice.next() < 0.5;
  const lies = turned ? turnedOutline(outline) : outline;
  draft.pans.push(pan);
  draft.turned.push(turned);
  draft.x.push(anywhere(state.dice, lies.coreX + lies.round, tray.floor.width));
  draft.y.push(anywhere(state.dice, lies.coreY + lies.round, tray.floor.depth));
}

function anywhere(dice: Dice, reach: number, size: number): number {
  return reach + dice.next() * (size - 2 * reach);
}

interface Pick {
  readonly at: number;
  readonly slot: number;
}

function hop(state: Hopping, budget: Budget): Changed[] | undefined {
  const { dice, rests } = state;
  if (state.turnable && dice.next() < turnShare) {
    const pick = dice.next() < painShare ? pained(state) : anyPan(state);
    const turned = turn(state, pick);
    if (turned) return [{ at: pick.at, draft: turned }];
  }
  if (dice.next() < tradeShare) {
    const pick = dice.next() < painShare ? pained(state) : anyPan(state);
    const two = partner(state, pick);
    if (two) return trade(state, pick, two);
  }
  const one = pained(state);
  const pan = rests[one.at]!.pans[one.slot]!;
  const allowed = state.freight.allowed[pan]!;
  return toHole(state, one, allowed[dice.below(allowed.length)]!, budget);
}

function anyPan(state: Hopping): Pick {
  let left = state.dice.below(state.size.length);
  let at = 0;
  while (left >= state.rests[at]!.pans.length) left -= state.rests[at++]!.pans.length;
  return { at, slot: left };
}

/** The one that hurts most for its size, of a few drawn. */
function pained(state: Hopping): Pick {
  let worst: Pick | undefined;
  let pain = -1;
  for (let draw = Math.max(2, state.size.length >> 3); draw > 0; draw--) {
    const pick = anyPan(state);
    const rest = state.rests[pick.at]!;
    const size = state.size[rest.pans[pick.slot]!]!;
    const share = rest.pain[pick.slot]! / (size * size);
    if (share > pain) {
      pain = share;
      worst = pick;
    }
  }
  return worst!;
}

function turn(state: Hopping, pick: Pick): Draft | undefined {
  const rest = state.rests[pick.at]!;
  if (!canTurn(state.freight.outlines[rest.pans[pick.slot]!]!)) return undefined;
  const draft = draftOf(rest);
  draft.turned[pick.slot] = !draft.turned[pick.slot]!;
  return draft;
}

/** Another pan of not too different size; undefined where the one drawn is of the same. */
function partner(state: Hopping, one: Pick): Pick | undefined {
  const { dice, bySize, rank, rests, freight } = state;
  const count = bySize.length;
  const span = Math.max(2, Math.ceil(count / 3));
  const pan = rests[one.at]!.pans[one.slot]!;
  let at = rank[pan]! + (dice.next() < 0.5 ? -1 : 1) * (1 + dice.below(span));
  if (at < 0) at = Math.min(count - 1, 1);
  if (at >= count) at = Math.max(0, count - 2);
  const other = bySize[at]!;
  if (sameSize(freight.outlines[pan]!, freight.outlines[other]!)) return undefined;
  const home = rests.findIndex((rest) => rest.pans.includes(other));
  return { at: home, slot: rests[home]!.pans.indexOf(other) };
}

function sameSize(first: Outline, second: Outline): boolean {
  return first.round === second.round && first.coreX === second.coreX && first.coreY === second.coreY;
}

function trade(state: Hopping, one: Pick, two: Pick): Changed[] | undefined {
  const { freight, trays, rests } = state;
  const first = draftOf(rests[one.at]!);
  const second = one.at === two.at ? first : draftOf(rests[two.at]!);
  const pan = first.pans[one.slot]!;
  const other = second.pans[two.slot]!;
  if (!freight.allowed[pan]!.includes(two.at) || !freight.allowed[other]!.includes(one.at)) return undefined;
  first.pans[one.slot] = other;
  second.pans[two.slot] = pan;
  const turned = first.turned[one.slot]!;
  first.turned[one.slot] = second.turned[two.slot]!;
  second.turned[two.slot] = turned;
  if (one.at === two.at) return [{ at: one.at, draft: first }];
  if (!bears(freight, trays[one.at]!, first.pans) || !bears(freight, trays[two.at]!, second.pans)) return undefined;
  return [
    { at: one.at, draft: first },
    { at: two.at, draft: second },
  ];
}

/** Puts a pan where, of many places drawn on the shelf, it is farthest from the others. */
function toHole(state: Hopping, one: Pick, to: number, budget: Budget): Changed[] | undefined {
  const { freight, trays, rests } = state;
  const from = draftOf(rests[one.at]!);
  const pan = from.pans[one.slot]!;
  const turned = from.turned[one.slot]!;
  for (const list of [from.pans, from.x, from.y, from.turned]) list.splice(one.slot, 1);
  const target = to === one.at ? from : draftOf(rests[to]!);
  if (to !== one.at && !bears(freight, trays[to]!, [...target.pans, pan])) return undefined;
  const lies = turned ? turnedOutline(freight.outlines[pan]!) : freight.outlines[pan]!;
  const [x, y] = holeIn(state, trays[to]!, target, lies);
  budget.left -= 0.0006 * (target.pans.length + 1);
  target.pans.push(pan);
  target.turned.push(turned);
  target.x.push(x);
  target.y.push(y);
  return to === one.at
    ? [{ at: to, draft: target }]
    : [
        { at: one.at, draft: from },
        { at: to, draft: target },
      ];
}

function holeIn(state: Hopping, tray: Tray, draft: Draft, lies: Outline): [number, number] {
  const { freight, dice } = state;
  const others = draft.pans.map((pan, at) =>
    draft.turned[at]! ? turnedOutline(freight.outlines[pan]!) : freight.outlines[pan]!,
  );
  let best: [number, number] = [tray.floor.width / 2, tray.floor.depth / 2];
  let farthest = -Infinity;
  for (let draw = 0; draw < holeDraws; draw++) {
    const x = anywhere(dice, lies.coreX + lies.round, tray.floor.width);
    const y = anywhere(dice, lies.coreY + lies.round, tray.floor.depth);
    let room = Infinity;
    for (let j = 0; j < others.length && room > farthest; j++) {
      const other = others[j]!;
      const apartX = Math.abs(x - draft.x[j]!) - lies.coreX - other.coreX;
      const apartY = Math.abs(y - draft.y[j]!) - lies.coreY - other.coreY;
      const apart = apartX > 0 && apartY > 0 ? Math.sqrt(apartX * apartX + apartY * apartY) : Math.max(apartX, apartY);
      room = Math.min(room, apart - other.round);
    }
    if (room <= farthest) continue;
    farthest = room;
    best = [x, y];
  }
  return best;
}
