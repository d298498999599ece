/** Destroy and repair: some bakes leave the sequence and come back one after another where they cost least. */
import type { DayModel } from "../day/day-model.ts";
import type { Random } from "../random.ts";
import type { Evaluator } from "./evaluate.ts";
import { lateByFollowing } from "./following.ts";
import type { Place } from "./likely-places.ts";
import { LIKELY_PLACES, likelyPlaces, withPlace } from "./likely-places.ts";
import { Draft } from "./draft.ts";
import { newLoad, withBakes } from "./sequence.ts";
import type { PlannedLoad, Taste } from "./sequence.ts";

/** Bakes that leave together: a small load, a few tickets, a window of loads, or the pans of a line and their like. */
export function chooseRuin(draft: Draft, random: Random): number[] {
  const { day, loads } = draft;
  if (loads.length === 0) return [];
  const pick = random.below(5);
  if (pick === 4) return smallLoad(draft, random);
  if (pick === 0) {
    const at = random.below(loads.length);
    return loads.slice(at, at + 1 + random.below(2)).flatMap((load) => load.bakes);
  }
  const pans = new Set<number>();
  const wanted = 1 + random.below(3);
  if (pick === 1) {
    for (let round = 0; round < wanted; round++) {
      const ticket = day.tickets[random.below(day.tickets.length)]!;
      for (const pan of ticket.pans.slice(0, 8)) pans.add(pan);
    }
  } else {
    const seed = random.below(day.pans.length);
    const line = day.pans[seed]!.line;
    day.pans.forEach((pan, index) => {
      if (pan.line === line && pans.size < 2 * wanted) pans.add(index);
    });
    if (pick === 3) pans.add(random.below(day.pans.length));
  }
  return [...pans].flatMap((pan) => bakesOf(day, pan)).filter((bake) => draft.loadOf[bake]! >= 0);
}

/** A load that holds few, with all that its pans have had before: it may find room in others then. */
function smallLoad(draft: Draft, random: Random): number[] {
  const { day, loads } = draft;
  let at = random.below(loads.length);
  for (let round = 0; round < 2; round++) {
    const other = random.below(loads.length);
    if (loads[other]!.bakes.length < loads[at]!.bakes.length) at = other;
  }
  const pans = new Set(loads[at]!.bakes.map((bake) => day.bakes[bake]!.pan));
  const taken = [...pans].flatMap((pan) => bakesOf(day, pan)).filter((bake) => draft.loadOf[bake]! >= 0);
  const near = loads[at + random.below(3) - 1];
  return random.below(2) === 0 && near !== undefined ? [...taken, ...near.bakes] : taken;
}

function bakesOf(day: DayModel, pan: number): number[] {
  return day.pans[pan]!.due.flatMap(({ bake }) => (bake === null ? [] : [bake]));
}

/** Takes bakes out of their loads; every later bake of their pans goes too, since it could not stand alone. */
export function without(draft: Draft, bakes: readonly number[]): { loads: PlannedLoad[]; taken: number[] } {
  const gone = new Set<number>();
  for (const bake of bakes) {
    const { pan, step } = draft.day.bakes[bake]!;
    for (const later of bakesOf(draft.day, pan))
      if (draft.day.bakes[later]!.step >= step && draft.loadOf[later]! >= 0) gone.add(later);
  }
  const loads = draft.loads.flatMap((load) => {
    if (!load.bakes.some((bake) => gone.has(bake))) return [load];
    const kept = load.bakes.filter((bake) => !gone.has(bake));
    return kept.length === 0 ? [] : [withBakes(load, kept)];
  });
  return { loads, taken: [...gone] };
}

/** Tickets of lower rank are served first. */
export type TicketRank = (ticket: number) => number;

/** So many sequences are timed at most to put bakes back: for each group, and once more for each bake of one that fits nowhere. */
export function stepsToInsert(bakes: number): number {
  return 2 * bakes * (LIKELY_PLACES + 1);
}

/**
 * Puts groups of alike bakes back, each where the whole sequence and what is sure to follow cost least; those that nothing
 * beats leaving stay out. So do the rest once the budget is spent: on days of 200 pans this may take seconds. What
 * `evaluator` accepted before is forgotten: places are timed from where the sequence so far changes.
 */
export function insertAll(
  evaluator: Evaluator,
  start: readonly PlannedLoad[],
  bakes: readonly number[],
  taste: Taste,
  random: Random,
  rank: TicketRank = () => 0,
  isSpent: () => boolean = () => false,
): readonly PlannedLoad[] {
  const { day, book } = evaluator.timetable;
  let loads = start;
  for (const group of groupsInOrder(day, bakes, random, rank)) {
    if (isSpent()) break;
    evaluator.accept({ ...taste, loads });
    const whole = insertGroup(evaluator, new Draft(book, loads), group, taste);
    if (whole !== undefined) {
      loads = whole;
      continue;
    }
    if (group.length === 1) continue;
    for (const bake of group) {
      evaluator.accept({ ...taste, loads });
      loads = insertGroup(evaluator, new Draft(book, loads), [bake], taste) ?? loads;
    }
  }
  return loads;
}

/** Alike bakes of the same step stay together; tickets by rank, earlier coats first, urgent tickets before others. */
function groupsInOrder(day: DayModel, bakes: readonly number[], random: Random, rank: TicketRank): number[][] {
  const groups = new Map<string, number[]>();
  const alone = random.below(3) === 0;
  for (const bake of bakes) {
    const { pan, step, kind } = day.bakes[bake]!;
    const key = alone
      ? `${bake}`
      : `${kind}/${step}/${day.pans[pan]!.ticket}/${day.request.lines[day.pans[pan]!.line]!.readyMinute}`;
    const group = groups.get(key);
    if (group === undefined) groups.set(key, [bake]);
    else group.push(bake);
  }
  const ticketOf = (group: readonly number[]): number => day.pans[day.bakes[group[0]!]!.pan]!.ticket;
  const urgency = (group: readonly number[]): number => day.tickets[ticketOf(group)]!.promised ?? Infinity;
  const lot = new Map([...groups.values()].map((group) => [group, random.next()]));
  const byUrgency = random.below(2) === 0;
  return [...groups.values()].sort((a, b) => {
    const ranks = [rank(ticketOf(a)), rank(ticketOf(b))] as const;
    if (ranks[0] !== ranks[1]) return ranks[0] - ranks[1];
    const step = day.bakes[a[0]!]!.step - day.bakes[b[0]!]!.step;
    if (step !== 0) return step;
    const difference = byUrgency ? urgency(a) - urgency(b) : 0;
    return Number.isNaN(difference) || difference === 0 ? lot.get(a)! - lot.get(b)! : difference;
  });
}

function insertGroup(
  evaluator: Evaluator,
  draft: Draft,
  group: readonly number[],
  taste: Taste,
): readonly PlannedLoad[] | undefined {
  const { loads, day } = draft;
  let from = 0;
  let to = loads.length;
  for (const bake of group) {
    const range = draft.range(bake);
    from = Math.max(from, range.from);
    to = Math.min(to, range.to);
    if (!predecessorStands(draft, bake)) return undefined;
  }
  const places: Place[] = [];
  for (let at = from; at < to; at++) {
    const joined = [...loads[at]!.bakes, ...group];
    if (draft.fits(loads[at]!.oven, joined)) places.push({ at, load: withBakes(loads[at]!, joined), joins: true });
  }
  for (const oven of day.kinds[day.bakes[group[0]!]!.kind]!.ovens) {
    if (!draft.fits(oven, group)) continue;
    for (let at = from; at <= to; at++) places.push({ at, load: newLoad(oven, group), joins: false });
  }
  const leftOut = evaluator.cost({ ...taste, loads });
  let best: readonly PlannedLoad[] | undefined;
  let bestCost = Infinity;
  for (const place of likelyPlaces(evaluator, places, group, taste)) {
    const candidate = withPlace(loads, place);
    const cost = evaluator.cost({ ...taste, loads: candidate }, Math.min(leftOut, bestCost));
    if (cost >= Math.min(leftOut, bestCost)) continue;
    const withFollowing = cost + lateByFollowing(evaluator, group);
    if (withFollowing >= bestCost) continue;
    best = candidate;
    bestCost = withFollowing;
  }
  return best;
}

function predecessorStands(draft: Draft, bake: number): boolean {
  const { pan, step } = draft.day.bakes[bake]!;
  if (step === 0) return true;
  const before = draft.day.pans[pan]!.due[step - 1]!;
  return before.bake === null || draft.loadOf[before.bake]! >= 0;
}
