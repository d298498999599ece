/** Which firings bake a load soundly: stage 2 asks whether any does, the sequence asks for all worth choosing from. */

/** A firing that keeps every window of every member. Whole minutes from door closing; gas in kWh gross. */
export interface FiringOption {
  readonly setPointC: number;
  readonly burnerOffMinutes: number;
  readonly unloadMinutes: number;
  readonly gasKWh: number;
  readonly chamberAtDoneC: number;
  /** Per member, in their order. */
  readonly metalAtUnloadC: readonly number[];
  /** How many whole minutes later the burner could go off with every window kept, 60 at most. */
  readonly slackMinutes: number;
}
