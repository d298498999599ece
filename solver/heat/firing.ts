/** One firing of one load as decided: what its chamber, its metal and its gas meter do. */

/** One firing as decided: whole minutes from door closing. */
export interface FiringDecision {
  readonly setPointC: number;
  readonly burnerOffMinutes: number;
  readonly unloadMinutes: number;
}

/** One member's bake, minutes counted from door closing to door opening. */
export interface MemberBake {
  /** When its metal first reaches lowC + guardC; null where it never does. */
  readonly inWindowMinutes: number | null;
  /** Minutes at or above lowC + guardC. */
  readonly soakMinutes: number;
  /** Minutes at or above lowC. */
  readonly aboveLowMinutes: number;
  readonly peakC: number;
  readonly metalAtUnloadC: number;
}

/** Minutes from door closing; gas in kWh gross. */
export interface Firing {
  /** Null where the chamber starts above the set-point and only falls, or never reaches it. */
  readonly setPointAtMinutes: number | null;
  /** True also where the chamber starts above the set-point. */
  readonly reachedSetPoint: boolean;
  readonly gasKWh: number;
  readonly chamberAtUnloadC: number;
  readonly chamberAtDoneC: number;
  /** In the order of the members given. */
  readonly members: readonly MemberBake[];
}
