/** Why not, why late, what to mind: a code with its numbers. The words live in api/contract/words.ts. */

export interface Reason {
  readonly code: ReasonCode;
  /** Numbers and names the sentence needs, with units in their keys. */
  readonly numbers: Readonly<Record<string, number | string>>;
}

export type ReasonCode =
  // left over
  | "no-room-in-horizon"
  | "costs-more-than-leaving"
  | "earlier-coat-left"
  | "held-load-takes-oven"
  // two bakes that cannot share a firing
  | "never-together"
  | "same-group-only"
  | "no-shared-oven"
  | "no-room-on-shelves"
  | "too-heavy"
  | "too-much-solvent"
  | "windows-do-not-meet"
  | "ranges-do-not-meet"
  | "ready-too-far-apart"
  // what to mind
  | "bottle-short"
  | "draw-off";
