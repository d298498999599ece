/** What can be measured: the fixed invented days and the open sets, under one form. */
import type { DayFile } from "../../api/contract/day.ts";
import { gatherBenchDays } from "../help/days.ts";
import type { PublicProblem } from "../help/public-jobs.ts";
import { publicSets, readPublicSet } from "../help/public-sets.ts";

export interface Instance {
  readonly set: string;
  readonly name: string;
  readonly day: DayFile;
  /** Null for invented days: their cost is what counts. */
  readonly problem: PublicProblem | null;
  readonly bestKnown: number | null;
  readonly lowerBound: number | null;
}

/** Instances of every set whose name begins like one of `sets`; throws where one of them names nothing. */
export function gatherInstances(sets: readonly string[], only: string, folder: string): Instance[] {
  const days = gatherBenchDays().map((one) => ({ ...one, problem: null, bestKnown: null, lowerBound: null }));
  const open = publicSets
    .filter((set) => sets.some((wanted) => set.startsWith(wanted)))
    .flatMap((set) => readPublicSet(set, folder));
  const known = [...days, ...open];
  for (const wanted of sets) {
    if (!known.some(({ set }) => begins(set, wanted)))
      throw new Error(`no instances of ${wanted} (open sets: ${folder})`);
  }
  return known.filter(({ set, name }) => sets.some((wanted) => begins(set, wanted)) && name.includes(only));
}

/** days8 is not the beginning of days80. */
function begins(set: string, wanted: string): boolean {
  return set.startsWith(wanted) && !(/\d$/.test(wanted) && /^\d/.test(set.slice(wanted.length)));
}
