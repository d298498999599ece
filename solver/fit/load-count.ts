/** Fewest loads for a set of pans when only their number matters: the planner's warm start. */
import type { ShelfSpace } from "../shop.ts";
import type { Budget } from "./budget.ts";
import { fillFloor } from "./fill-floor.ts";
import type { PackPan, Place } from "./footprint.ts";
import { freightOf, traysOf } from "./freight.ts";
import { leastLoads } from "./load-bounds.ts";
import { emptyPool } from "./pool-search.ts";
import type { Freight, Rack, Tray } from "./rack.ts";
import { spotOf } from "./shelf-fit.ts";
import { seededDice, type Dice } from "./seeded.ts";

/** A pan in its load (from 0) with its place there. */
export interface LoadedPan {
  readonly load: number;
  readonly place: Place;
}

/**
 * The pans in as few loads as found, in their order; undefined for a pan that fits no shelf of its list even alone.
 * `effort` bounds the search as in packLoad.
 */
export function packIntoLoads(
  space: ShelfSpace,
  pans: readonly PackPan[],
  preference: readonly (readonly number[])[],
  effort: number,
  seed: number,
): (LoadedPan | undefined)[] {
  const dice = seededDice(seed);
  const budget = { left: effort };
  const freight = freightOf(space, pans, preference);
  const fitting = pans.flatMap((_, i) => (freight.allowed[i]!.length > 0 ? [i] : []));
  let loads = fillLoads(space, freight, fitting, budget, dice);
  const least = leastLoads(space, freight, fitting);
  while (loads.length > least && budget.left > 0) {
    const fewer = dissolveOne(space, freight, loads, budget, dice);
    if (!fewer) break;
    loads = fewer;
  }
  const loaded: (LoadedPan | undefined)[] = pans.map(() => undefined);
  loads.forEach((trays, load) =>
    trays.forEach((tray, shelf) =>
      tray.members.forEach((i, at) => {
        loaded[i] = { load, place: { shelf, ...spotOf(tray.centres[at]!, space.gapCm) } };
      }),
    ),
  );
  return loaded;
}

/** Fills load after load, shelf after shelf, each as full as it gets. */
function fillLoads(space: ShelfSpace, freight: Freight, pans: readonly number[], budget: Budget, dice: Dice): Tray[][] {
  const loads: Tray[][] = [];
  let left = pans;
  while (left.length > 0) {
    const trays = traysOf(space);
    trays.forEach((tray, at) => {
      const offered = left.filter((i) => freight.allowed[i]!.includes(at));
      const part = { left: Math.min(budget.left, 5 + offered.length) };
      const given = part.left;
      const filling = fillFloor(tray.floor, goodsFor(freight, offered, tray), part, dice);
      budget.left -= given - part.left;
      tray.members = filling.chosen.map((k) => offered[k]!);
      tray.centres = filling.centres;
      left = left.filter((i) => !tray.members.includes(i));
    });
    loads.push(trays);
  }
  return loads;
}

function goodsFor(freight: Freight, offered: readonly number[], tray: Tray): Parameters<typeof fillFloor>[1] {
  return {
    outlines: offered.map((i) => freight.outlines[i]!),
    value: offered.map((i) => freight.area[i]!),
    massKg: offered.map((i) => freight.massKg[i]!),
    massLeftKg: tray.maxKg + 1e-9,
  };
}

/** Empties the least full load into the others; undefined where that was not found possible. */
function dissolveOne(
  space: ShelfSpace,
  freight: Freight,
  loads: readonly Tray[][],
  budget: Budget,
  dice: Dice,
): Tray[][] | undefined {
  const membersOf = (trays: readonly Tray[]): number[] => trays.flatMap((tray) => tray.members);
  const fullness = loads.map((trays) => membersOf(trays).reduce((sum, i) => sum + freight.area[i]!, 0));
  const emptied = fullness.indexOf(Math.min(...fullness));
  const kept = loads.filter((_, at) => at !== emptied).map((trays) => trays.map((tray) => ({ ...tray })));
  const shelves = space.shelves.length;
  const allowed = freight.allowed.map((own) => kept.flatMap((_, load) => own.map((shelf) => load * shelves + shelf)));
  const rack: Rack = { freight: { ...freight, allowed }, trays: kept.flat(), pool: membersOf(loads[emptied]!) };
  return emptyPool(rack, budget, dice) ? kept : undefined;
}
