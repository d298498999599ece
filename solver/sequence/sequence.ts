/** What the search changes: loads in the order in which they ask for booth and oven. */
import type { Recipe } from "../loads/recipe.ts";

export interface PlannedLoad {
  readonly oven: number;
  /** Bake indices. */
  readonly bakes: readonly number[];
  /** Set-point wanted; 0 lets the timetable choose. */
  readonly setPointC: number;
  /** What may be done with the burner before the door opens: a pre-heat where it pays, none, or one to so many °C. */
  readonly preheat: "auto" | "never" | number;
  /** How much later than it could the door opens, whole minutes: waiting for a hotter follow-up can save gas. */
  readonly delayMinutes: number;
  /**
   * The door stays shut so many minutes longer than it must, and the burner goes off as much sooner as the windows allow; null:
   * it burns as long as it may without holding anything up, which leaves the next load a warm chamber.
   */
  readonly coastMinutes: number | null;
  /**
   * A clean burn that the oven owes comes before this load already, which may go into a soiled oven: there may be time for it now.
   * Absent: it waits for a load that needs a clean one.
   */
  readonly burnsFirst?: true;
  /** Shelves of each different kind, in their order, as `RecipeBook.recipeOn` has them; without it the book chooses. */
  readonly shelfSet?: readonly number[];
  /** What the timetable worked out about these bakes; it fills this in once and is the only one to read it. */
  resolved?: Resolved;
}

/** The bakes of a load in the order of their recipe's kinds; no recipe where they cannot share a firing. */
export interface Resolved {
  readonly bakes: readonly number[];
  readonly recipe: Recipe | undefined;
}

/** How firings are chosen: one taste for the whole sequence, varied by the search. */
export interface Taste {
  /** What a minute of oven time is thought to cost, as a multiple of the crew's minute. */
  readonly haste: number;
  /** Share of the chamber's stored heat thought to serve the next firing. */
  readonly heatCredit: number;
}

export interface Sequence extends Taste {
  readonly loads: readonly PlannedLoad[];
}

/** Without what the timetable noted on its loads, so that it can be sent to another process. */
export function plainSequence({ haste, heatCredit, loads }: Sequence): Sequence {
  return { haste, heatCredit, loads: loads.map(plainLoad) };
}

/** A copy of the load to change its shelves: nothing worked out about it yet. */
export function plainLoad(load: PlannedLoad): PlannedLoad {
  const { resolved: _, ...plain } = load;
  return plain;
}

/** By the oven's own choice of set-point, pre-heat and door, as soon as it can. */
export function newLoad(oven: number, bakes: readonly number[]): PlannedLoad {
  return { oven, bakes, setPointC: 0, preheat: "auto", delayMinutes: 0, coastMinutes: null };
}

/** The load with other bakes, its set-point chosen anew. */
export function withBakes(load: PlannedLoad, bakes: readonly number[]): PlannedLoad {
  const { setPointC: _, shelfSet: __, ...kept } = plainLoad(load);
  return { ...kept, bakes, setPointC: 0 };
}
