/**
 * The pans of a day, or some of them, laid out for the exact search: what each step takes, the least that follows it, and
 * which pans are alike. A pan's `goal` is how many of its steps are baked; the rest is left over at its price.
 */
import type { DayModel } from "../day/day-model.ts";
import type { ShopState } from "../sequence/shop-state.ts";
import { StaffedTime } from "../sequence/staffed-time.ts";
import type { KindTimes } from "./kind-times.ts";
import type { LoneTables } from "./lone-tables.ts";
import type { LoadSets } from "./load-sets.ts";
import { StaffedClock } from "./staffed-clock.ts";

export interface Step {
  readonly kind: number;
  /** 0 where nothing is sprayed. */
  readonly sprayMinutes: number;
  readonly flashMinutes: number;
  readonly paint: number;
  readonly inspectMinutes: number;
  /** The door closes by then; Infinity without a limit. Only where the wait does not count from spraying. */
  readonly closesBy: number;
  /** From the end of spraying to its done, and to the hand-over to the next step. */
  readonly doneMinutes: number;
  readonly nextMinutes: number;
  /** That a load of it keeps the oven, heating up for it included; and from its done to the hand-over to the next step. */
  readonly ovenMinutes: number;
  readonly afterMinutes: number;
}

export interface TaskPan {
  readonly pan: number;
  readonly line: number;
  readonly ticket: number;
  /** When the first step may begin, bench work done; and that bench work itself. */
  readonly release: number;
  readonly readyMinute: number;
  readonly prepMinutes: number;
  readonly steps: readonly Step[];
}

/** What is worked out once for all tasks of a day. */
export interface ProofTables extends LoneTables {
  readonly sets: LoadSets;
}

export interface ProofTask extends ProofTables {
  readonly day: DayModel;
  readonly staffed: StaffedTime;
  readonly clock: StaffedClock;
  readonly breaks: boolean;
  readonly pans: readonly TaskPan[];
  readonly start: ShopState;
  /**
   * Other pans stand between these: their firings may have left the chamber as hot or as cool as can be, for what heating it
   * costs at least.
   */
  readonly isPart: boolean;
}

/** `chosen`: indices of pans that still have something to bake, alike ones next to each other. */
export function proofTask({ sets, ...alone }: ProofTables, start: ShopState, chosen: readonly number[]): ProofTask {
  const { day } = sets;
  const { request } = day;
  const staffed = new StaffedTime(request.staffed);
  const clock = new StaffedClock(request.staffed, request.planFromMinute);
  const perLine = new Map<number, number>();
  const pans = chosen.map((pan): TaskPan => {
    const { line: lineIndex, ticket } = day.pans[pan]!;
    const line = request.lines[lineIndex]!;
    const first = start.panStep[pan]!;
    const prepMinutes = first === 0 ? line.prepMinutes : 0;
    const ready = Math.max(start.panRelease[pan]!, request.planFromMinute);
    const place = perLine.get(lineIndex) ?? 0;
    perLine.set(lineIndex, place + 1);
    return {
      pan,
      line: lineIndex,
      ticket,
      release: prepMinutes === 0 ? ready : prepared(request.benches, staffed, clock, { ready, prepMinutes, place }),
      readyMinute: ready,
      prepMinutes: request.benches > 0 ? prepMinutes : 0,
      steps: stepsOf(day, alone.times, pan, first),
    };
  });
  const bakes = pans.reduce((sum, { steps }) => sum + steps.length, 0);
  const breaks = request.staffed.length > 1;
  return { day, sets, ...alone, staffed, clock, breaks, pans, start, isPart: bakes < day.bakes.length };
}

interface Bench {
  readonly ready: number;
  readonly prepMinutes: number;
  /** So many alike pans go before it. */
  readonly place: number;
}

/** The c-th of alike pans is prepared no sooner than the benches are through with c of them. */
function prepared(benches: number, staffed: StaffedTime, clock: StaffedClock, bench: Bench): number {
  const { ready, prepMinutes, place } = bench;
  const start = staffed.fit(Math.ceil(ready), prepMinutes);
  if (start < 0) return Infinity;
  const rounds = benches > 0 ? Math.floor(place / benches) : 0;
  const end = start + prepMinutes;
  return rounds === 0 ? end : clock.minuteOf(clock.read(end) + rounds * prepMinutes);
}

function stepsOf(day: DayModel, times: ReadonlyMap<number, readonly KindTimes[]>, pan: number, first: number): Step[] {
  const { due, line: lineIndex } = day.pans[pan]!;
  const line = day.request.lines[lineIndex]!;
  return due.slice(first).map((one, at) => {
    const kind = day.kinds[one.kind]!;
    const { coat, paint } = kind;
    const own = times.get(one.kind)!;
    const unsprayed = coat.sprayMinutes === 0 || (first + at === 0 && line.sprayed);
    const waits = first + at === 0 && unsprayed && line.prepMinutes === 0 && coat.maxWaitMinutes !== null;
    const flashMinutes = unsprayed ? 0 : coat.flashMinutes;
    return {
      kind: one.kind,
      sprayMinutes: unsprayed ? 0 : coat.sprayMinutes,
      flashMinutes,
      paint,
      inspectMinutes: coat.inspectMinutes,
      closesBy: waits ? line.readyMinute + coat.maxWaitMinutes : Infinity,
      doneMinutes: flashMinutes + Math.min(...own.map(({ doneMinutes }) => doneMinutes)),
      nextMinutes: flashMinutes + Math.min(...own.map(({ handMinutes }) => handMinutes)) + coat.inspectMinutes,
      ovenMinutes: Math.min(...own.map(({ packedMinutes }) => packedMinutes)),
      afterMinutes: Math.min(...own.map(({ coolMinutes }) => coolMinutes)) + coat.inspectMinutes,
    };
  });
}
