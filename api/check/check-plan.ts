/**
 * Does a plan obey the rules, and does it cost what it says? Worked out from the two files alone, with arithmetic of
 * its own, so that no mistake of the planner can hide here as well. Runs after every planning.
 */
import type { Day } from "../contract/day.ts";
import type { PlanFile } from "../contract/plan.ts";
import { bakesOfPieces } from "./bakes.ts";
import { checkChains } from "./chains.ts";
import { checkCost } from "./cost.ts";
import { checkCureWindows } from "./cure-window.ts";
import { viewDay } from "./day-view.ts";
import type { Fault } from "./fault.ts";
import { checkFirings } from "./firing-rules.ts";
import { checkHands } from "./hands.ts";
import { checkHeld } from "./held.ts";
import { checkMixing } from "./mixing.ts";
import { checkNames } from "./names.ts";
import { followOvens } from "./oven-history.ts";
import { checkOvensInTime } from "./ovens-in-time.ts";
import { viewPlan } from "./plan-view.ts";
import { checkProof } from "./proof.ts";
import { checkSaid } from "./said.ts";
import { checkSavings } from "./savings.ts";
import { checkSpace } from "./space.ts";
import { checkStaffed } from "./staffed.ts";
import { checkTickets, ticketsOf } from "./tickets.ts";

export interface CheckOptions {
  /** Longest integration step, seconds; default 5. */
  readonly stepSeconds?: number;
  /** Fires the habits afresh, which takes longer than all the rest; default true. */
  readonly savings?: boolean;
}

/**
 * Every fault of a plan of this day; empty for a sound plan. The day is checked input and the plan of its schema;
 * whatever such a plan says, nothing is thrown.
 */
export function checkPlan(day: Day, plan: PlanFile, options: CheckOptions = {}): Fault[] {
  const faults: Fault[] = [];
  const report = (fault: Fault): number => faults.push(fault);
  const view = viewDay(day, options.stepSeconds ?? 5);
  const planned = viewPlan(view, plan);
  const traces = followOvens(view, planned, report);
  const pieces = bakesOfPieces(view, planned, traces);
  const tickets = ticketsOf(view, pieces);
  checkNames(view, planned, report);
  checkHeld(view, planned, report);
  checkSpace(planned, report);
  checkMixing(view, planned, traces, report);
  checkOvensInTime(view, planned, report);
  checkFirings(view, planned, traces, report);
  checkCureWindows(planned, traces, report);
  checkStaffed(view, planned, report);
  checkHands(view, planned, report);
  checkChains(view, planned, pieces, report);
  checkTickets(view, planned, tickets, report);
  checkCost(view, planned, { pieces, tickets, traces }, report);
  checkSaid(view, planned, traces, report);
  if (options.savings ?? true) checkSavings(view, planned, traces, report);
  checkProof(planned, report);
  return faults;
}
