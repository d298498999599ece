/** What the search changes: loads in the order in which they ask for booth and oven. */
export interface PlannedLoad {
  readonly oven: number;
  /** Bake indices. */
  readonly bakes: readonly number[];
  /** Set-point wanted; 0 lets the timetable choose. */
  readonly setPointC: number;
  /** What may be done with the burner before the door opens. */
  readonly preheat: "auto" | "never";
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
