/**
 * Who goes into which load, when the loads stand: each pan picks one of its choices (one or more places in loads) at
 * least cost, within the room of the loads. The LP relaxation is whole for nearly all pans; the others are rounded one
 * by one with repair, single moves and swaps tidy up, a short branch and bound has the last word. Called in pauses of
 * the search.
 */
import type { Lp } from "../lp/lp.ts";
import type { LinearModel, Row } from "../lp/model.ts";

/** One way to bake a pan: what it takes of which room (rooms are areas, masses, solvent, … of loads), and its cost. */
export interface Choice {
  readonly cost: number;
  readonly takes: readonly (readonly [room: number, amount: number])[];
}

export interface AssignTask {
  /** Choices of each pan; alike pans share one list, and one row of the model. */
  readonly pans: readonly (readonly Choice[])[];
  /** Size of each room. */
  readonly rooms: readonly number[];
}

export interface Assignment {
  /** Index of the choice of each pan. */
  readonly chosen: readonly number[];
  readonly value: number;
  /** No assignment costs less, certified. */
  readonly bound: number;
}

/** Tableau cells accepted: the model has few full columns, so it runs faster than its size says. */
const CELLS = 400_000;
/** Pivots times cells of the closing search, some tenths of a second. */
const WORK = 2e8;
const EPSILON = 1e-9;

export interface AssignLimits {
  /** Relaxations of the closing branch and bound, 100 when absent; 0: none, and the answer is the rounded one. */
  readonly nodes?: number;
  /** Linear programs while rounding, no limit when absent; the pans still open then follow the last one's shares. */
  readonly rounds?: number;
}

/** Undefined when no assignment fits or none was found, or the task is too large. */
export function assignBakes(lp: Lp, task: AssignTask, limits: AssignLimits = {}): Assignment | undefined {
  const everyone = task.pans.map((_, p) => p);
  const root = lp.solve(assignModel(task, everyone, task.rooms, false), { rowsTimesColumns: CELLS });
  if (root.status !== "optimal") return undefined;
  const state: State = { task, chosen: everyone.map(() => -1), free: [...task.rooms] };
  const shares = sharesOf(task, everyone, root.x);
  const rounded = settleRest(lp, state, settleWhole(state, everyone, shares), shares, limits.rounds ?? Infinity);
  if (rounded) tidy(state);
  const base = task.pans.reduce((sum, choices) => sum + cheapest(choices), 0);
  const nodes = limits.nodes ?? 100;
  if (nodes === 0) return rounded ? answerOf(task, state.chosen, root.value + base) : undefined;
  const whole = assignModel(task, everyone, task.rooms, true);
  const start = rounded ? pointOf(task, state.chosen) : undefined;
  const answer = lp.solve(whole, { rowsTimesColumns: CELLS, nodes, work: WORK }, start);
  if (answer.status !== "optimal" && answer.status !== "feasible") return undefined;
  const chosen = sharesOf(task, everyone, answer.x).map((own) => own.indexOf(most(own)));
  return answerOf(task, chosen, (answer.status === "optimal" ? answer.value : answer.bound) + base);
}

function answerOf(task: AssignTask, chosen: readonly number[], bound: number): Assignment {
  const value = chosen.reduce((sum, c, p) => sum + (task.pans[p]?.[c]?.cost ?? 0), 0);
  return { chosen, value, bound: Math.min(value, bound) };
}

interface State {
  readonly task: AssignTask;
  /** Choice of each pan, -1 while open. */
  readonly chosen: number[];
  /** What is left of each room. */
  readonly free: number[];
}

/**
 * Rows: each list of choices at least as often as pans have it, each room at most full. Costs count from the list's
 * cheapest choice, so none is negative and no pan is taken twice; this spares the second half of an equality per list.
 */
function assignModel(
  task: AssignTask,
  pans: readonly number[],
  rooms: readonly number[],
  integer: boolean,
): LinearModel {
  const costs: number[] = [];
  const full = rooms.map((rhs) => ({ kind: "<=" as const, rhs, columns: [] as number[], values: [] as number[] }));
  const most = rooms.map(() => 0);
  const rows = [...groupsOf(task, pans)].map(([choices, own]): Row => {
    const columns = choices.map((choice) => {
      const column = costs.push(choice.cost - cheapest(choices)) - 1;
      for (const [room, amount] of choice.takes) {
        full[room]?.columns.push(column);
        full[room]?.values.push(amount);
        most[room] = (most[room] ?? 0) + amount * own.length;
      }
      return column;
    });
    return { kind: ">=", rhs: own.length, columns, values: columns.map(() => 1) };
  });
  const tight = full.filter(({ rhs }, room) => (most[room] ?? 0) > rhs);
  return { sense: "min", columns: costs.map((cost) => ({ cost, integer })), rows: [...rows, ...tight] };
}

/** Pans by their list of choices. */
function groupsOf(task: AssignTask, pans: readonly number[]): Map<readonly Choice[], number[]> {
  const groups = new Map<readonly Choice[], number[]>();
  for (const p of pans) {
    const choices = task.pans[p] ?? [];
    const own = groups.get(choices);
    if (own === undefined) groups.set(choices, [p]);
    else own.push(p);
  }
  return groups;
}

function cheapest(choices: readonly Choice[]): number {
  return choices.reduce((least, choice) => Math.min(least, choice.cost), Infinity);
}

/** The whole model's point for these choices. */
function pointOf(task: AssignTask, chosen: readonly number[]): number[] {
  const everyone = task.pans.map((_, p) => p);
  return [...groupsOf(task, everyone)].flatMap(([choices, own]) =>
    choices.map((_, c) => own.filter((p) => chosen[p] === c).length),
  );
}

/** The LP's share of each choice of each pan asked about: whole pans are dealt out first, the rest is shared alike. */
function sharesOf(task: AssignTask, pans: readonly number[], x: readonly number[]): number[][] {
  let at = 0;
  const shares: number[][] = task.pans.map(() => []);
  for (const [choices, own] of groupsOf(task, pans)) {
    const times = choices.map(() => x[at++] ?? 0);
    const waiting = [...own];
    const parts = times.map((time, c) => {
      const whole = Math.floor(time + 1e-6);
      for (const p of waiting.splice(0, whole)) shares[p] = choices.map((_, other) => (other === c ? 1 : 0));
      return Math.max(0, time - whole);
    });
    for (const p of waiting) shares[p] = parts.map((part) => part / waiting.length);
  }
  return shares;
}

/** Gives every pan the choice the LP gives it wholly; returns the pans still open. */
function settleWhole(state: State, pans: readonly number[], shares: readonly (readonly number[])[]): number[] {
  return pans.filter((p) => {
    const whole = (shares[p] ?? []).findIndex((share) => share > 1 - 1e-6);
    if (whole >= 0 && fits(state, p, whole)) put(state, p, whole);
    return (state.chosen[p] ?? -1) < 0;
  });
}

/** One open pan at a time, the one with the clearest share; the LP is asked again for the others. */
function settleRest(
  lp: Lp,
  state: State,
  pans: readonly number[],
  given: readonly (readonly number[])[],
  rounds: number,
): boolean {
  let open = [...pans];
  let shares = given;
  for (let round = 0; open.length > 0; round++) {
    const clearest = open.reduce((a, b) => (most(shares[b]) > most(shares[a]) + EPSILON ? b : a));
    if (!place(state, clearest, shares[clearest] ?? [])) return false;
    open = open.filter((p) => p !== clearest);
    if (open.length === 0 || round >= rounds) continue;
    const answer = lp.solve(assignModel(state.task, open, state.free, false), { rowsTimesColumns: CELLS });
    if (answer.status !== "optimal") continue;
    shares = sharesOf(state.task, open, answer.x);
    open = settleWhole(state, open, shares);
  }
  return true;
}

function most(shares: readonly number[] | undefined): number {
  return (shares ?? []).reduce((a, b) => Math.max(a, b), 0);
}

/** Puts the pan where it fits, by share and then by cost; else moves one other pan out of its way. */
function place(state: State, p: number, shares: readonly number[]): boolean {
  const choices = state.task.pans[p] ?? [];
  const order = choices.map((_, c) => c);
  order.sort(
    (a, b) => (shares[b] ?? 0) - (shares[a] ?? 0) || (choices[a]?.cost ?? 0) - (choices[b]?.cost ?? 0) || a - b,
  );
  const fitting = order.find((c) => fits(state, p, c));
  if (fitting !== undefined) {
    put(state, p, fitting);
    return true;
  }
  return order.some((c) => state.chosen.some((own, other) => own >= 0 && makeWay(state, p, c, other)));
}

/** Gives pan `p` choice `c` by moving `other` to the cheapest choice that then fits. False, and nothing moved, when none does. */
function makeWay(state: State, p: number, c: number, other: number): boolean {
  const own = state.chosen[other] ?? -1;
  takeOut(state, other);
  if (fits(state, p, c)) {
    put(state, p, c);
    const next = bestFitting(state, other);
    if (next !== undefined) {
      put(state, other, next);
      return true;
    }
    takeOut(state, p);
  }
  put(state, other, own);
  return false;
}

/** Single moves, and moves that need one other pan to give way, while they gain. */
function tidy(state: State): void {
  const { pans } = state.task;
  const costOf = (p: number, c: number): number => pans[p]?.[c]?.cost ?? 0;
  for (let gained = true; gained;) {
    gained = false;
    pans.forEach((choices, p) => {
      const own = state.chosen[p] ?? -1;
      takeOut(state, p);
      const next = bestFitting(state, p) ?? own;
      put(state, p, next);
      if (costOf(p, next) < costOf(p, own) - EPSILON) gained = true;
      choices.forEach((choice, c) => {
        if (choice.cost < costOf(p, state.chosen[p] ?? -1) - EPSILON && swapIn(state, p, c)) gained = true;
      });
    });
  }
}

/** Moves pan `p` to a cheaper choice with one other giving way, when both together cost less. */
function swapIn(state: State, p: number, c: number): boolean {
  const before = state.chosen[p] ?? -1;
  const costOf = (pan: number): number => state.task.pans[pan]?.[state.chosen[pan] ?? -1]?.cost ?? 0;
  for (let other = 0; other < state.chosen.length; other++) {
    if (other === p) continue;
    const own = state.chosen[other] ?? -1;
    const cost = costOf(p) + costOf(other);
    takeOut(state, p);
    if (makeWay(state, p, c, other)) {
      if (costOf(p) + costOf(other) < cost - EPSILON) return true;
      takeOut(state, p);
      takeOut(state, other);
      put(state, other, own);
    }
    put(state, p, before);
  }
  return false;
}

function bestFitting(state: State, p: number): number | undefined {
  let best: number | undefined;
  (state.task.pans[p] ?? []).forEach((choice, c) => {
    const least = best === undefined ? Infinity : (state.task.pans[p]?.[best]?.cost ?? 0);
    if (choice.cost < least && fits(state, p, c)) best = c;
  });
  return best;
}

function fits(state: State, p: number, c: number): boolean {
  return (state.task.pans[p]?.[c]?.takes ?? []).every(([room, amount]) => amount <= (state.free[room] ?? 0) + EPSILON);
}

function put(state: State, p: number, c: number): void {
  state.chosen[p] = c;
  for (const [room, amount] of state.task.pans[p]?.[c]?.takes ?? [])
    state.free[room] = (state.free[room] ?? 0) - amount;
}

function takeOut(state: State, p: number): void {
  for (const [room, amount] of state.task.pans[p]?.[state.chosen[p] ?? -1]?.takes ?? []) {
    state.free[room] = (state.free[room] ?? 0) + amount;
  }
  state.chosen[p] = -1;
}
