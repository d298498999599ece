/**
 * Which places are worth timing the whole sequence for, of all where a group of bakes could go back: those that look cheapest
 * once only the load it goes into is timed. A guess, not a bound: all behind that load are taken to be as much later as it is.
 */
import { lateCost } from "../day/late-cost.ts";
import type { Evaluator } from "./evaluate.ts";
import { followingMinutes } from "./following.ts";
import type { PlannedLoad, Taste } from "./sequence.ts";

/** A load that holds the group: in place of load `at` where the group joins that, else before it. */
export interface Place {
  readonly at: number;
  readonly load: PlannedLoad;
  readonly joins: boolean;
}

export function withPlace(loads: readonly PlannedLoad[], { at, load, joins }: Place): PlannedLoad[] {
  return loads.toSpliced(at, joins ? 1 : 0, load);
}

/** So many are timed whole. */
export const LIKELY_PLACES = 5;

/** The likeliest of `places` in the sequence that `evaluator` accepted last, which lacks the group: alike bakes of a ticket. */
export function likelyPlaces(
  evaluator: Evaluator,
  places: readonly Place[],
  group: readonly number[],
  taste: Taste,
): readonly Place[] {
  if (places.length <= LIKELY_PLACES) return places;
  const priceAt = priceAtAGlance(evaluator, group, taste);
  const priced = places.map((place) => ({ place, price: priceAt(place) })).filter(({ price }) => price < Infinity);
  priced.sort((one, other) => one.price - other.price);
  return priced.slice(0, LIKELY_PLACES).map(({ place }) => place);
}

/** Money, comparable between places of the same group only; Infinity where the load finds no time. */
function priceAtAGlance(evaluator: Evaluator, group: readonly number[], taste: Taste): (place: Place) => number {
  const { day } = evaluator.timetable;
  const { bakes, pans, tickets, request } = day;
  const { gasPerKWh, crewPerHour, movePerPan } = request.prices;
  const own = pans[bakes[group[0]!]!.pan]!.ticket;
  const end = evaluator.end;
  return ({ at, load, joins }) => {
    const state = evaluator.after(at, load, taste);
    if (state === undefined) return Infinity;
    const without = evaluator.before(joins ? at + 1 : at);
    let ready = end.ticketReady[own]!;
    for (const bake of group) {
      const { pan, step } = bakes[bake]!;
      const following = followingMinutes(day, pan, step);
      ready = Math.max(ready, state.panRelease[pan]! + following + request.finishMinutes);
    }
    const delay = Math.max(0, state.ovenFree[load.oven]! - without.ovenFree[load.oven]!);
    const gas = (state.gasKWh - without.gasKWh) * gasPerKWh;
    const moved = (state.moved - without.moved) * movePerPan;
    let price = gas + moved + (delay * crewPerHour) / 60 + lateCost(tickets[own]!, ready);
    for (let other = 0; other < tickets.length; other++) {
      if (without.ticketOpen[other] === 0) continue;
      const ticket = tickets[other]!;
      price += lateCost(ticket, end.ticketReady[other]! + delay) - lateCost(ticket, end.ticketReady[other]!);
    }
    return price;
  };
}
