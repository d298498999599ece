/** What grouping saved: firings that were fired, against the same habits as a plan's. */
import { dayModel } from "../day/day-model.ts";
import type { Saving } from "../firing-plan.ts";
import { RecipeBook } from "../loads/recipe-book.ts";
import type { PlanRequest } from "../shop.ts";
import type { FiredLoad } from "./savings.ts";
import { savings } from "./savings.ts";

/** Loads in order of door opening; `gasKWh`: all that was burnt, empty firings and lost ones included. */
export function firedSavings(request: PlanRequest, loads: readonly FiredLoad[], gasKWh: number): readonly Saving[] {
  return savings(new RecipeBook(dayModel({ ...request, held: [] }), 0), loads, gasKWh);
}
