/** When and where a bake could go next, bench and booth always free: what sequences built in the order of time go by. */
import type { DayModel } from "../day/day-model.ts";
import type { RecipeBook } from "../loads/recipe-book.ts";
import type { ShopState } from "./shop-state.ts";

/** From the pan's release to the door: bench work before its first coat, spraying and flash-off, minutes. */
export function leadMinutes(day: DayModel, bake: number): number {
  const { pan, step, kind } = day.bakes[bake]!;
  const { prepMinutes, sprayed } = day.request.lines[day.pans[pan]!.line]!;
  const { sprayMinutes, flashMinutes } = day.kinds[kind]!.coat;
  const isUnsprayed = sprayMinutes === 0 || (step === 0 && sprayed);
  return (step === 0 ? prepMinutes : 0) + (isUnsprayed ? 0 : sprayMinutes + flashMinutes);
}

/** Minute from which it could go in. */
export function readyFor(day: DayModel, state: ShopState, bake: number): number {
  return readyAfter(day, state, day.bakes[bake]!.pan, leadMinutes(day, bake));
}

/** Minute from which a pan could go in, `lead` minutes after it is released. */
export function readyAfter(day: DayModel, state: ShopState, pan: number, lead: number): number {
  return Math.max(state.panRelease[pan]!, day.request.planFromMinute) + lead;
}

/** Of the ovens that bake the kind at all, the first to come free. */
export function firstFreeOven(book: RecipeBook, state: ShopState, kind: number): number | undefined {
  let first: number | undefined;
  for (const oven of book.day.kinds[kind]!.ovens)
    if (first === undefined || state.ovenFree[oven]! < state.ovenFree[first]!)
      if (book.recipe(oven, [kind]) !== undefined) first = oven;
  return first;
}
