/** Stage 4 of plan.ts on days that come down to jobs: the arrangements found are offered to the search as sequences. */
import type { Random } from "../random.ts";
import { PLAIN_TASTE } from "../sequence/careful-hand.ts";
import { newLoad } from "../sequence/sequence.ts";
import type { Improvement } from "../sequence/improvement.ts";
import type { Search } from "../sequence/search.ts";
import type { PlannedLoad, Sequence } from "../sequence/sequence.ts";
import type { Timetable } from "../sequence/timetable.ts";
import type { Progress } from "../stop.ts";
import type { JobLoads } from "./anneal.ts";
import { JobSearch } from "./anneal.ts";
import type { JobDay } from "./job-day.ts";

/** Like `Search.run`: hands out each improvement, and `undefined` now and then. */
export function* searchJobs(
  day: JobDay,
  timetable: Timetable,
  search: Search,
  random: Random,
  progress: Progress,
): Generator<Improvement | undefined> {
  if (day.count === 0) return;
  const jobs = new JobSearch(day, loadsOf(day, search.best.sequence), random);
  for (const improved of jobs.run(() => progress(search.steps + jobs.steps - search.timedElsewhere))) {
    search.timedElsewhere = jobs.steps;
    yield improved && search.offer(sequenceOf(timetable, jobs.best)) ? search.best : undefined;
  }
}

/** Jobs in no load follow alone, for whatever oven is left to them. */
function loadsOf(day: JobDay, { loads }: Sequence): JobLoads {
  const arranged = new Set(loads.flatMap(({ bakes }) => bakes));
  const rest = Array.from({ length: day.count }, (_, job) => job).filter((job) => !arranged.has(job));
  return [...loads.map(({ bakes }) => bakes), ...rest.map((job) => [job])];
}

/** Each load in the oven that is free first. */
function sequenceOf(timetable: Timetable, jobs: JobLoads): Sequence {
  const state = timetable.startState();
  const loads: PlannedLoad[] = [];
  for (const bakes of jobs) {
    const oven = state.ovenFree.reduce((best, free, index) => (free < state.ovenFree[best]! ? index : best), 0);
    const load = newLoad(oven, bakes);
    timetable.place(state, load, PLAIN_TASTE);
    loads.push(load);
  }
  return { ...PLAIN_TASTE, loads };
}
