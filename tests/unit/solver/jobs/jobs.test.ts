import { describe, expect, it } from "vitest";
import { dayModel } from "../../../../solver/day/day-model.ts";
import { JobSearch } from "../../../../solver/jobs/anneal.ts";
import { Arrangement } from "../../../../solver/jobs/arrangement.ts";
import { Clock } from "../../../../solver/jobs/clock.ts";
import type { JobDay } from "../../../../solver/jobs/job-day.ts";
import { jobDay } from "../../../../solver/jobs/job-day.ts";
import { exchange, join, merge, part, push, shift, split } from "../../../../solver/jobs/moves.ts";
import { refilling } from "../../../../solver/jobs/refill.ts";
import { seededRandom } from "../../../../solver/random.ts";
import { stepBudget } from "../../../../solver/stop.ts";
import { readDay } from "../../../../api/day/read-day.ts";
import { toRequest } from "../../../../api/day/to-solver.ts";
import { fixtureFolder, publicSets, readPublicSet } from "../../../help/public-sets.ts";
import { areaLine, fixedCoat, fixedOven, smallRequest } from "../../../help/requests.ts";

const published = publicSets
  .filter((set) => set !== "rect_2dbpp")
  .flatMap((set) => readPublicSet(set, fixtureFolder))
  .map((instance) => ({ ...instance, jobs: jobsOf(instance.day) }));

describe("days that come down to jobs", () => {
  it.each(published)("$set $name is one", ({ jobs, problem }) => {
    expect(jobs.count).toBe(problem.objective === "loads" ? 0 : problem.jobs.length);
  });

  it("are those where nobody sprays, nothing is held and all ovens are alike", () => {
    const plain = smallRequest({ lines: [areaLine("a", { leftOverCost: 1000 })] });
    expect(jobDay(dayModel(plain))).toBeDefined();
    const sprayed = { ...plain, coatings: [{ id: "c", name: "c", coats: [fixedCoat({ sprayMinutes: 4 })] }] };
    expect(jobDay(dayModel(sprayed))).toBeUndefined();
    const unlike = { ...plain, ovens: [fixedOven(), fixedOven({ space: { kind: "area", dm2: 30 } })] };
    expect(jobDay(dayModel(unlike))).toBeUndefined();
    const cheapToLeave = { ...plain, lines: [areaLine("a", { leftOverCost: 1 })] };
    expect(jobDay(dayModel(cheapToLeave))).toBeUndefined();
    const twoDays = { ...plain, staffed: [plain.staffed[0]!, { from: 2000, to: 2400 }] };
    expect(jobDay(dayModel(twoDays))).toBeUndefined();
  });
});

describe("the jobs' clock", () => {
  it.each(published)("prices $set $name after changes as it does from the start", ({ jobs }) => {
    const random = seededRandom(3);
    const arrangement = new Arrangement(jobs);
    arrangement.become([...jobs.due.keys()].map((job) => [job]));
    const clock = new Clock(jobs);
    clock.settle(arrangement);
    arrangement.keep();
    const moves = [join, exchange, shift, push, part, split, merge, refilling(jobs)];
    let changed = 0;
    for (let round = 0; round < 2000; round++) {
      if (!moves[random.below(moves.length)]!(arrangement, random)) continue;
      changed++;
      const fresh = costFromTheStart(jobs, arrangement.written());
      expect(clock.price(arrangement, Infinity)).toBeCloseTo(fresh, 6);
      // Told to give up early, it may say Infinity only of what does cost more.
      const cutoff = clock.cost * (0.8 + 0.4 * random.next());
      if (clock.price(arrangement, cutoff) === Infinity) expect(fresh).toBeGreaterThan(cutoff - 1e-6);
      if (random.below(3) > 0) {
        const before = clock.cost;
        arrangement.undo();
        expect(costFromTheStart(jobs, arrangement.written())).toBeCloseTo(before, 6);
        continue;
      }
      clock.settle(arrangement);
      arrangement.keep();
      expect(clock.cost).toBeCloseTo(fresh, 6);
    }
    expect(changed).toBeGreaterThan(200);
  });
});

describe("filling loads afresh", () => {
  // A whole unit of area fits all figures of the sets; a third of a dm² does not, and is rounded up.
  const thirds = published.map((one) => ({
    ...one,
    name: `${one.name} in thirds`,
    jobs: { ...one.jobs, roomDm2: one.jobs.roomDm2 / 3, areaDm2: one.jobs.areaDm2.map((area) => area / 3) },
  }));
  it.each([...published, ...thirds])("keeps every job of $set $name and every room", ({ jobs }) => {
    const random = seededRandom(7);
    const refill = refilling(jobs);
    const arrangement = new Arrangement(jobs);
    arrangement.become([...jobs.due.keys()].map((job) => [job]));
    arrangement.keep();
    let fewer = 0;
    for (let round = 0; round < 300; round++) {
      if (!refill(arrangement, random)) continue;
      const loads = arrangement.written();
      expect(loads.flat().sort((a, b) => a - b)).toEqual([...jobs.due.keys()]);
      for (const load of loads) {
        expect(load.reduce((sum, job) => sum + jobs.areaDm2[job]!, 0)).toBeLessThan(jobs.roomDm2 + 1e-6);
        expect(new Set(load.map((job) => jobs.family[job])).size).toBe(1);
      }
      fewer = Math.max(fewer, jobs.count - loads.length);
      arrangement.keep();
    }
    expect(fewer).toBeGreaterThan(0);
  });

  it("fills two loads to the brim where the pans just fit into them", () => {
    const lines = [11, 9, 8, 7, 5].map((dm2, index) =>
      areaLine(`p${index}`, { leftOverCost: 1000, shape: { kind: "area", dm2 } }),
    );
    const jobs = jobDay(dayModel(smallRequest({ lines })))!;
    const arrangement = new Arrangement(jobs);
    arrangement.become([[0], [1], [2], [3], [4]]);
    const random = seededRandom(1);
    const refill = refilling(jobs);
    let fewest = 5;
    for (let round = 0; round < 50; round++) {
      refill(arrangement, random);
      fewest = Math.min(fewest, arrangement.loads);
      arrangement.keep();
    }
    expect(fewest).toBe(2);
  });
});

describe("the search over jobs", () => {
  // Optima as published with the open sets, fixtures/public/README.md.
  const proven = published.filter((one) => one.proven && one.jobs.count <= 20);
  it.each(proven)("reaches the proven optimum of $set $name", ({ jobs, bestKnown }) => {
    const search = new JobSearch(
      jobs,
      [...jobs.due.keys()].map((job) => [job]),
      seededRandom(1),
    );
    for (const _ of search.run(stepBudget(300_000))) continue;
    expect(costFromTheStart(jobs, search.best)).toBeCloseTo(bestKnown!, 6);
  });

  it("ends where nothing can be changed", () => {
    const jobs = jobDay(dayModel(smallRequest({ lines: [areaLine("a", { leftOverCost: 1000 })] })))!;
    const search = new JobSearch(jobs, [[0]], seededRandom(1));
    for (const _ of search.run(stepBudget(100))) continue;
    expect(search.best).toEqual([[0]]);
  });

  it("makes the same of the same seed and steps", () => {
    const { jobs } = published[0]!;
    const run = () => {
      const search = new JobSearch(
        jobs,
        [...jobs.due.keys()].map((job) => [job]),
        seededRandom(5),
      );
      for (const _ of search.run(stepBudget(5000))) continue;
      return search.best;
    };
    expect(run()).toEqual(run());
  });
});

/** Ovens filled in order, each load in the one that is free first; written anew for the test. */
function costFromTheStart(day: JobDay, loads: readonly (readonly number[])[]): number {
  const free = Array.from({ length: day.ovens }, () => day.from);
  let cost = 0;
  let last = day.planFrom;
  for (const jobs of loads) {
    const oven = free.indexOf(Math.min(...free));
    const minutes = Math.max(...jobs.map((job) => day.minutes[job]!));
    const opens = Math.max(Math.ceil(free[oven]!), ...jobs.map((job) => day.release[job]!));
    const ends = opens + day.loadMinutes + minutes + day.unloadMinutes;
    if (ends > day.end) {
      cost += jobs.reduce((sum, job) => sum + day.leftOver[job]!, 0);
      continue;
    }
    free[oven] = ends;
    last = Math.max(last, ends);
    cost += minutes * day.gasPerMinute;
    for (const job of jobs) cost += Math.max(0, ends - day.due[job]!) * day.latePerMinute[job]!;
  }
  return cost + (last - day.planFrom) * day.crewPerMinute;
}

function jobsOf(day: Parameters<typeof readDay>[0]): JobDay {
  const read = readDay(day);
  if (!read.ok) throw new Error("a published instance is no day file");
  const jobs = jobDay(dayModel(toRequest(read.day)));
  if (jobs === undefined) throw new Error("a published instance is more than jobs");
  return jobs;
}
