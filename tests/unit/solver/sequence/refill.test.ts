/** A stretch of loads filled afresh: what stays, what changes, and when it gives up. */
import { describe, expect, it } from "vitest";
import { dayModel } from "../../../../solver/day/day-model.ts";
import { RecipeBook, SEARCH_BUCKET_K } from "../../../../solver/loads/recipe-book.ts";
import { seededRandom } from "../../../../solver/random.ts";
import { carefulHand, PLAIN_TASTE } from "../../../../solver/sequence/careful-hand.ts";
import { Evaluator } from "../../../../solver/sequence/evaluate.ts";
import { Draft } from "../../../../solver/sequence/draft.ts";
import { newLoad } from "../../../../solver/sequence/sequence.ts";
import { Refiller } from "../../../../solver/sequence/refill.ts";
import type { PlannedLoad } from "../../../../solver/sequence/sequence.ts";
import { Timetable } from "../../../../solver/sequence/timetable.ts";
import type { PlanRequest } from "../../../../solver/shop.ts";
import { generatedDay } from "../../../help/days.ts";
import { requestOf } from "../../../help/exact-bound.ts";
import { areaLine, smallRequest } from "../../../help/requests.ts";

/** Refills of the sequence that these loads are. */
function refillsOf(request: PlanRequest, loadsOf: (timetable: Timetable) => PlannedLoad[]) {
  const timetable = new Timetable(new RecipeBook(dayModel(request), 0), SEARCH_BUCKET_K);
  const evaluator = new Evaluator(timetable);
  const loads = loadsOf(timetable);
  evaluator.accept({ ...PLAIN_TASTE, loads });
  const refiller = new Refiller(evaluator);
  const draft = new Draft(timetable.book, loads);
  const random = seededRandom(5);
  const refilled = (cutoff = Infinity) => refiller.refilled(draft, PLAIN_TASTE, random, cutoff);
  return { evaluator, refiller, loads, refilled };
}

const bakesOf = (loads: readonly PlannedLoad[]): number[] => loads.flatMap(({ bakes }) => bakes).sort((a, b) => a - b);
const alone = (bakes: readonly number[]): PlannedLoad[] => bakes.map((bake) => newLoad(0, [bake]));

describe("a stretch filled afresh", () => {
  // Two pans fill the oven; all are ready at once.
  const lines = ["A", "B", "C", "D"].map((id) => areaLine(id));

  it("gathers what fits together, in many orders", () => {
    const { refilled } = refillsOf(smallRequest({ lines }), () => alone([0, 1, 2, 3]));
    const seen = new Set<string>();
    for (let round = 0; round < 200; round++) {
      const loads = refilled()!;
      expect(bakesOf(loads)).toEqual([0, 1, 2, 3]);
      seen.add(JSON.stringify(loads.map(({ bakes }) => bakes)));
    }
    expect(seen).toContain("[[0,1],[2,3]]");
    expect(seen).toContain("[[2,0],[3,1]]");
    // Some stretches are shorter than the day: what stands around them stays alone.
    expect(seen).toContain("[[0],[1,2],[3]]");
  });

  it("keeps to earlier coats first, and leaves the loads around it as they are: invented days", () => {
    for (const seed of [1, 2, 3, 4]) {
      const request = requestOf(generatedDay({ pans: 16, ovens: 1 + (seed % 2), door: "hot", pace: "calm", seed }));
      const { refilled, loads, evaluator } = refillsOf(request, (timetable) => carefulHand(timetable));
      const { timetable } = evaluator;
      let changed = 0;
      for (let round = 0; round < 60; round++) {
        const next = refilled();
        if (next === undefined) continue;
        expect(bakesOf(next)).toEqual(bakesOf(loads));
        const kept = next.filter((load) => loads.includes(load));
        expect(loads.length - kept.length).toBeLessThanOrEqual(6);
        if (kept.length < loads.length) changed++;
        const state = timetable.startState();
        const fresh = next.filter((load) => !loads.includes(load));
        for (const load of next) {
          const timed = timetable.place(state, load, PLAIN_TASTE);
          if (fresh.includes(load)) expect(timed?.bakes).toHaveLength(load.bakes.length);
        }
      }
      expect(changed).toBeGreaterThan(10);
    }
  });

  it("gives up as soon as it is sure to cost more than the cutoff", () => {
    const late = lines.map((line) => ({ ...line, promisedMinute: 10, latePerHour: 6 }));
    const { refilled, refiller } = refillsOf(smallRequest({ lines: late }), () => alone([0, 1, 2, 3]));
    // The first two are 30 minutes late, the others 70: 20 money before any gas.
    for (let round = 0; round < 20; round++) expect(refilled(20)).toBeUndefined();
    expect(refiller.filled).toBe(20);
    expect(Array.from({ length: 40 }, () => refilled(40)).some((loads) => loads !== undefined)).toBe(true);
  });

  it("gives up where a bake finds no time", () => {
    const { refilled } = refillsOf(smallRequest({ lines, staffed: [{ from: 0, to: 30 }] }), () => alone([0, 1, 2, 3]));
    for (let round = 0; round < 20; round++) expect(refilled()).toBeUndefined();
  });
});
