/** A sequence of loads as far as the exact search has come: nothing in it is later, dearer or colder than it must be. */
import type { Candidate } from "./free-rides.ts";
import type { Hands } from "./hands-served.ts";
import type { LoadSet } from "./load-sets.ts";
import type { Root } from "./proof-root.ts";

export interface Label {
  readonly root: Root;
  readonly before: Label | undefined;
  /** The load that led here. */
  readonly set: LoadSet | undefined;
  /** Pans of it, as numbered in the task. */
  readonly members: readonly number[];
  /** Bound on every plan that goes on from here. */
  floor: number;
  readonly gasCost: number;
  readonly lastOpen: number;
  /** The next door opens no sooner: what can be loaded before has been looked at from another label. */
  readonly notBefore: number;
  readonly lastDone: number;
  /** Per pan: steps baked, and when the next may begin (the hand-over once its goal is reached). */
  readonly steps: Uint8Array;
  readonly release: Float64Array;
  /** Per pan of the last load that is baked again: minutes from its done until it is inspected, see next-door.ts; else 0. */
  readonly rest: Float64Array;
  /** Per oven: free from, chamber at most and at least (unless left to cool), clean burn owed. */
  readonly free: Float64Array;
  readonly hotC: Float64Array;
  readonly coolC: Float64Array;
  readonly soiled: Uint8Array;
  /** Booth and bench tasks of the loads so far, as lists of busy.ts. */
  readonly sprays: readonly number[];
  readonly preps: readonly number[];
  /** Booth and bench tasks of pans that rode along: done before the last load, nobody knows when. */
  readonly owed: readonly number[];
  readonly owedPreps: readonly number[];
  dead: boolean;
  /** What may follow it has been looked at. */
  followed: boolean;
  /** Given where its load has only been looked at roughly. */
  readonly rough: Rough | undefined;
}

/** One load after one label, looked at roughly: its labels stand for what a closer look will make of it. */
export interface Rough {
  readonly before: Label;
  readonly candidate: Candidate;
  readonly hands: Hands;
  /** The closer look has been taken. */
  looked: boolean;
}

/** Labels with the same key differ in times and costs only. */
export function keyOf(rootNumber: number, { steps, soiled }: Pick<Label, "steps" | "soiled">): string {
  let key = String.fromCharCode(rootNumber);
  for (let at = 0; at < steps.length; at++) key += String.fromCharCode(48 + steps[at]!);
  for (let at = 0; at < soiled.length; at++) key += soiled[at] === 1 ? "!" : ".";
  return key;
}
