/**
 * Search for a layout of all pans by squeezing: from a crowded start each shelf's overlap energy falls downhill, then
 * pans hop (trade places, go to a hole, turn) and the shelves touched fall again, until nothing overlaps or the effort
 * is spent.
 *
 * The scheme is basin hopping (D. Wales and J. Doye, J. Phys. Chem. A 101, 1997) on the quasi-physical energy of
 * circle packing (W. Huang and others); worse basins are taken now and then by a threshold.
 */
import type { Budget } from "./budget.ts";
import type { Centre } from "./greedy.ts";
import { hopping, scattered, startedFrom, type Hopping } from "./hop-moves.ts";
import { draftOf, settle, type Draft, type Rest, type Workshop } from "./hop-state.ts";
import type { FloorSize, Outline } from "./outline.ts";
import type { Freight, Rack, Tray } from "./rack.ts";
import type { Dice } from "./seeded.ts";

const threshold = 0.3;
/** So many deals in a row that break a shelf's mass limit end the search. */
const mostBadDeals = 50;

/** Centres of all outlines on one floor, or undefined where the budget ended first. */
export function hopToFit(
  floor: FloorSize,
  outlines: readonly Outline[],
  budget: Budget,
  dice: Dice,
): Centre[] | undefined {
  const all = outlines.map((_, i) => i);
  const freight: Freight = { outlines, area: all, massKg: all.map(() => 0), allowed: all.map(() => [0]) };
  const rack: Rack = { freight, trays: [{ floor, maxKg: Infinity, members: [], centres: [] }], pool: all };
  if (!hopRack(rack, budget, dice)) return undefined;
  const centres: Centre[] = [];
  rack.trays[0]!.members.forEach((i, at) => (centres[i] = rack.trays[0]!.centres[at]!));
  return centres;
}

/** Lays all pans of the rack, whatever lies there; true where found, else the rack is left as it was. */
export function hopRack(rack: Rack, budget: Budget, dice: Dice): boolean {
  const { freight, trays } = rack;
  const state = hopping(freight, trays, dice);
  const workshop: Workshop = new Map();
  const patience = 40 + 3 * freight.outlines.length;
  let start = startedFrom(state, rack);
  for (let tries = 0; budget.left > 0 && tries < mostBadDeals; start = scattered(state)) {
    budget.left -= 0.1;
    tries = start ? 0 : tries + 1;
    if (!start) continue;
    state.rests = start.map((draft, at) => fall(freight, trays[at]!, draft, workshop, budget));
    if (hopOn(state, workshop, budget, patience)) {
      state.rests.forEach((rest, at) => putBack(trays[at]!, rest));
      rack.pool = [];
      return true;
    }
  }
  return false;
}

/** Hops from the state's layout until it fits (true), patience ends or the budget does. */
function hopOn(state: Hopping, workshop: Workshop, budget: Budget, patience: number): boolean {
  const { freight, trays, dice } = state;
  let least = Infinity;
  let since = 0;
  while (!state.rests.every((rest) => rest.fits)) {
    if (since++ > patience || budget.left <= 0) return false;
    budget.left -= 0.01;
    const changed = state.hop(budget);
    if (!changed) continue;
    const total = state.rests.reduce((sum, rest) => sum + rest.energy, 0);
    const before = changed.reduce((sum, { at }) => sum + state.rests[at]!.energy, 0);
    const gate = before + total * threshold * dice.next() * dice.next();
    const fallen = changed.map(({ at, draft }) => ({ at, rest: fall(freight, trays[at]!, draft, workshop, budget) }));
    const after = fallen.reduce((sum, { rest }) => sum + rest.energy, 0);
    if (after >= gate) continue;
    for (const { at, rest } of fallen) state.rests[at] = rest;
    if (total - before + after >= least * (1 - 1e-6)) continue;
    least = total - before + after;
    since = 0;
  }
  return true;
}

function fall(freight: Freight, tray: Tray, draft: Draft, workshop: Workshop, budget: Budget): Rest {
  const { rest, evaluations } = settle(freight, tray, draft, workshop);
  const count = draft.pans.length;
  budget.left -= evaluations * (count * count * 4e-5 + count * 1.5e-3 + 2e-3) + 0.08;
  return rest;
}

function putBack(tray: Tray, rest: Rest): void {
  const { x, y } = draftOf(rest);
  tray.members = rest.pans;
  tray.centres = rest.pans.map((_, at) => ({ x: x[at]!, y: y[at]!, turned: rest.turned[at]! }));
}
