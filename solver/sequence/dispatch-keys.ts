/** What decides a sequence that is built in the order of time, and small changes to it. */
import type { DayModel } from "../day/day-model.ts";
import type { Random } from "../random.ts";
import { leadMinutes } from "./ready.ts";
import type { Sequence, Taste } from "./sequence.ts";
import { drawTaste, FIRST_TASTE } from "./taste.ts";

/** Alike bakes of a ticket on the same step, ready at once: they rank together. */
export interface Group {
  readonly kind: number;
  readonly ticket: number;
  readonly step: number;
  readonly bakes: readonly number[];
  /** Of each of its bakes, see ready.ts. */
  readonly leadMinutes: number;
}

/** Per group, in their order. */
export interface Keys extends Taste {
  /** Whole numbers from 0, each once; the least is served first. */
  readonly rank: Int32Array;
  /** A load may open so much later than it could for this group to join it, minutes; ALONE: it shares its loads with none. */
  readonly joinMinutes: Int32Array;
  /** A load of this group may open so much later than the first that could, the oven idling, minutes. */
  readonly openMinutes: Int32Array;
  /** 1: a load that this group opens may take what only a closer look finds room and shelves for, see `closeBook`. */
  readonly closely: Uint8Array;
}

export const ALONE = -1;

/** Minutes tried, and minutes to begin with. */
const JOINS = [ALONE, 0, 10, 20, 40, 80];
const OPENS = [0, 5, 15, 30, 60, 120];
const FIRST_JOIN = 20;
const FIRST_OPEN = 15;

/** Of a hundred changes: a ticket's rank, a group's rank, its joining, its opening, those of its whole ticket; the rest, the taste. */
const TICKET_RANKS = 35;
const GROUP_RANKS = 20;
const JOININGS = 20;
const OPENINGS = 15;
const WHOLE_TICKETS = 7;
/** And so many more: how closely its loads are looked at. */
const CLOSER = 5;
/** Half of the groups that change rank on their own go no further than so many ranks. */
const NEAR = 4;

export function groupsOf(day: DayModel): Group[] {
  const groups = new Map<string, Group & { bakes: number[] }>();
  day.bakes.forEach(({ pan, step, kind }, bake) => {
    const { line, ticket } = day.pans[pan]!;
    const lead = leadMinutes(day, bake);
    const key = [kind, step, ticket, day.request.lines[line]!.readyMinute, lead].join("/");
    const group = groups.get(key);
    if (group === undefined) groups.set(key, { kind, ticket, step, bakes: [bake], leadMinutes: lead });
    else group.bakes.push(bake);
  });
  return [...groups.values()];
}

/** Promised first, first; promised soon for the price of its lateness, first; in the order of the loads of a sequence. */
export function firstKeys(day: DayModel, groups: readonly Group[], known: Sequence): Keys[] {
  const loadOf = new Map(known.loads.flatMap(({ bakes }, at) => bakes.map((bake) => [bake, at] as const)));
  const promised = ({ ticket }: Group): number => day.tickets[ticket]!.promised ?? Infinity;
  const orders = [
    promised,
    (group: Group) => promised(group) / (1 + day.tickets[group.ticket]!.latePerHour),
    ({ bakes }: Group) => Math.min(...bakes.map((bake) => loadOf.get(bake) ?? Infinity)),
  ];
  return orders.map((order) => ({
    ...FIRST_TASTE,
    rank: ranked(groups.map(order), (group) => -groups[group]!.step),
    joinMinutes: new Int32Array(groups.length).fill(FIRST_JOIN),
    openMinutes: new Int32Array(groups.length).fill(FIRST_OPEN),
    closely: new Uint8Array(groups.length),
  }));
}

/** `looksCloser`: there is a closer look to take. */
export function changed(keys: Keys, groups: readonly Group[], looksCloser: boolean, random: Random): Keys {
  const group = random.below(groups.length);
  let pick = random.below(looksCloser ? 100 + CLOSER : 100);
  if ((pick -= TICKET_RANKS) < 0) return { ...keys, rank: ticketMoved(keys.rank, groups, group, random) };
  if ((pick -= GROUP_RANKS) < 0) return { ...keys, rank: groupMoved(keys.rank, group, random) };
  if (looksCloser && (pick -= CLOSER) < 0)
    return { ...keys, closely: keys.closely.with(group, 1 - keys.closely[group]!) };
  if ((pick -= JOININGS) < 0) return { ...keys, joinMinutes: keys.joinMinutes.with(group, drawn(JOINS, random)) };
  if ((pick -= OPENINGS) < 0) return { ...keys, openMinutes: keys.openMinutes.with(group, drawn(OPENS, random)) };
  if ((pick -= WHOLE_TICKETS) >= 0) return { ...keys, ...drawTaste(random) };
  const { ticket } = groups[group]!;
  const forAll = (before: Int32Array, minutes: number): Int32Array =>
    before.map((old, at) => (groups[at]!.ticket === ticket ? minutes : old));
  return random.below(2) === 0
    ? { ...keys, joinMinutes: forAll(keys.joinMinutes, drawn(JOINS, random)) }
    : { ...keys, openMinutes: forAll(keys.openMinutes, drawn(OPENS, random)) };
}

/** All groups of the ticket of `group` right before another group, in their order. */
function ticketMoved(rank: Int32Array, groups: readonly Group[], group: number, random: Random): Int32Array {
  const { ticket } = groups[group]!;
  const before = rank[random.below(groups.length)]! - 0.5;
  return ranked(
    groups.map((other, at) => (other.ticket === ticket ? before : rank[at]!)),
    (at) => rank[at]!,
  );
}

/** Two groups change ranks, or one goes next to the other. */
function groupMoved(rank: Int32Array, group: number, random: Random): Int32Array {
  const near = rank.indexOf(rank[group]! + random.below(2 * NEAR + 1) - NEAR);
  const other = random.below(2) === 0 || near < 0 ? random.below(rank.length) : near;
  if (random.below(2) === 0) return rank.with(group, rank[other]!).with(other, rank[group]!);
  const to = rank[other]! + random.below(2) - 0.5;
  return ranked([...rank].with(group, to), (at) => at);
}

/** Ranks 0, 1, … of what is ordered by `values`, then by `tie`, then as it stands. */
function ranked(values: readonly number[], tie: (at: number) => number): Int32Array {
  const rank = new Int32Array(values.length);
  [...values.keys()]
    .sort((a, b) => (values[a] === values[b] ? tie(a) - tie(b) || a - b : values[a]! - values[b]!))
    .forEach((at, place) => (rank[at] = place));
  return rank;
}

function drawn(list: readonly number[], random: Random): number {
  return list[random.below(list.length)]!;
}
