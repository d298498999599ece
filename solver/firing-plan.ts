/**
 * What the solver answers: loads, bench, booth, tickets, what is left over, cost and proof.
 *
 * Instants in minutes from the request's origin, as in shop.ts. Indices point into the request's arrays; `item` and
 * `coat` count from 1.
 */
import type { LoadKind } from "./shop.ts";
import type { Reason } from "./reason.ts";

export interface FiringPlan {
  readonly proof: Proof;
  readonly cost: Cost;
  readonly gasKWh: number;
  /** Bake, clean-burn and preheat firings of all ovens, held ones included, in order of door opening. */
  readonly loads: readonly Load[];
  readonly prep: readonly BenchTask[];
  readonly booth: readonly BoothTask[];
  readonly tickets: readonly TicketReady[];
  readonly leftOver: readonly LeftOver[];
  readonly savings: readonly Saving[];
}

export interface Proof {
  readonly status: "proven" | "good" | "time" | "stopped";
  /** Lower bound on the cost of every plan that obeys the rules; 0 where none is known. */
  readonly bestPossibleCost: number;
  /** What of that bound each part of the cost makes unavoidable; the parts sum to no more than the bound. */
  readonly unavoidable: { readonly gas: number; readonly crew: number; readonly late: number };
  readonly steps: number;
  readonly lpSolves: number;
}

export interface Cost {
  readonly total: number;
  readonly gas: number;
  readonly crew: number;
  readonly late: number;
  readonly leftOver: number;
  readonly moved: number;
}

export interface Load {
  /** Set for held loads; undefined for new ones, which are numbered by whoever writes the plan down. */
  readonly heldId: string | null;
  readonly oven: number;
  readonly kind: LoadKind;
  readonly state: "planned" | "pinned" | "firing" | "fired";
  /** Null in an oven with a fixed cycle, as all burner instants below. */
  readonly setPointC: number | null;
  readonly ventMinutes: number;
  readonly doorOpens: number;
  readonly doorCloses: number;
  readonly burnerOn: number | null;
  /** Null where the chamber only falls to the set-point. */
  readonly setPointAt: number | null;
  readonly burnerOff: number | null;
  readonly unload: number;
  readonly done: number;
  readonly chamberStartC: number | null;
  readonly gasKWh: number;
  readonly massKg: number;
  readonly solventMl: number;
  readonly pans: readonly BakedPan[];
  /** Whole minutes the burner could still go off later with every window kept; null in a fixed cycle. */
  readonly slackMinutes: number | null;
  /** One point a minute from door closing to unloading; empty in a fixed cycle. */
  readonly curve: readonly CurvePoint[];
}

export interface CurvePoint {
  readonly minute: number;
  readonly chamberC: number;
  /** Coldest and hottest metal of the load; the chamber itself where it holds no pans. */
  readonly slowestC: number;
  readonly fastestC: number;
}

export interface BakedPan {
  readonly line: number;
  readonly item: number;
  readonly coat: number;
  readonly shelf: number | null;
  readonly xCm: number | null;
  readonly yCm: number | null;
  readonly turned: boolean;
  /** When its metal first reaches metalLowC + guardC; null in a fixed cycle. */
  readonly inWindow: number | null;
  readonly soakMinutes: number | null;
  readonly peakC: number | null;
  /** When it may be handled. */
  readonly cooled: number;
}

export interface BenchTask {
  readonly line: number;
  readonly item: number;
  /** From 1. */
  readonly bench: number;
  readonly from: number;
  readonly to: number;
}

export interface BoothTask {
  readonly line: number;
  readonly item: number;
  readonly coat: number;
  /** From 1. */
  readonly sprayer: number;
  readonly from: number;
  readonly to: number;
}

export interface TicketReady {
  readonly ticket: string;
  /** Instant of hand-over; with a pan left over, the one the cost counts with. */
  readonly ready: number;
  readonly promised: number | null;
  readonly lateMinutes: number;
}

export interface LeftOver {
  readonly line: number;
  readonly item: number;
  /** First coat that no load bakes. */
  readonly coat: number;
  readonly reason: Reason;
}

export interface Saving {
  readonly habit: "one pan per firing" | "ticket order";
  readonly firings: number;
  readonly kWh: number;
  readonly savedKWh: number;
  readonly savedCost: number;
}
