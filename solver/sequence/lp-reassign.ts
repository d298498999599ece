/**
 * Who goes into which load of a stretch of the sequence, the loads and their doors being as they are: the assignment LP
 * says, the recipes have the last word, and what they refuse is left for the search's own insertion. Called in pauses of
 * the search.
 */
import { assignBakes } from "../lp-models/assign.ts";
import type { Lp } from "../lp/lp.ts";
import type { FreePan } from "./lp-assign-task.ts";
import { reassignTask } from "./lp-assign-task.ts";
import type { Placed } from "./lp-placed.ts";
import { Draft } from "./draft.ts";
import { withBakes } from "./sequence.ts";
import { without } from "./rebuild.ts";
import type { PlannedLoad, Sequence } from "./sequence.ts";
import type { Timetable } from "./timetable.ts";

/** Loads with pans moved, and the bakes that found no room in them. */
export interface Reassigned {
  readonly loads: readonly PlannedLoad[];
  readonly open: readonly number[];
}

/** Largest model asked: pans times ways grow quickly. */
const MOST_COLUMNS = 1500;
/** Linear programs while rounding: more of them cost more than they gained. */
const ROUNDS = 4;

/** `stretch`: indices into the placed loads. Undefined where the LP would leave every pan where it is. */
export function reassign(
  timetable: Timetable,
  lp: Lp,
  sequence: Sequence,
  placed: Placed,
  stretch: readonly number[],
): Reassigned | undefined {
  const asked = reassignTask(timetable, placed, stretch);
  if (asked === undefined || new Set(asked.task.pans).size === 0) return undefined;
  const columns = [...new Set(asked.task.pans)].reduce((sum, choices) => sum + choices.length, 0);
  if (columns > MOST_COLUMNS) return undefined;
  const answer = assignBakes(lp, asked.task, { nodes: 0, rounds: ROUNDS });
  if (answer === undefined) return undefined;
  const draft = new Draft(timetable.book, sequence.loads);
  const wanted = new Map<number, number>();
  dealWays(asked.pans, answer.chosen, (bake, at) => isAt(placed, at, bake)).forEach((way, index) => {
    asked.pans[index]!.bakes.forEach((bake, step) => {
      const at = way[step]!;
      wanted.set(bake, at < 0 ? -1 : placed.loads[at]!.at);
    });
  });
  const moved = [...wanted].filter(([bake, at]) => draft.loadOf[bake] !== at);
  return moved.length === 0 ? undefined : moveBakes(draft, moved);
}

function isAt(placed: Placed, at: number, bake: number): boolean {
  return at >= 0 && placed.loads[at]!.bakes.includes(bake);
}

/** The chosen way of each pan; of alike pans, those stay where they are that can. */
function dealWays(
  pans: readonly FreePan[],
  chosen: readonly number[],
  stands: (bake: number, at: number) => boolean,
): (readonly number[])[] {
  const groups = new Map<FreePan["ways"], number[]>();
  pans.forEach(({ ways }, index) => groups.set(ways, [...(groups.get(ways) ?? []), index]));
  const dealt: (readonly number[])[] = pans.map(() => []);
  for (const [ways, members] of groups) {
    const open = members.map((index) => ways[chosen[index]!]!);
    const staying = (index: number): number =>
      open.findIndex((way) => way.every((at, step) => stands(pans[index]!.bakes[step]!, at)));
    const moving = members.filter((index) => {
      const own = staying(index);
      if (own < 0) return true;
      dealt[index] = open.splice(own, 1)[0]!;
      return false;
    });
    for (const index of moving) dealt[index] = open.pop()!;
  }
  return dealt;
}

/** Everyone leaves first; then each joins its load if the recipe says so. */
function moveBakes(draft: Draft, moved: readonly (readonly [bake: number, at: number])[]): Reassigned | undefined {
  const leaving = new Set(moved.map(([bake]) => bake));
  const bakesOf = draft.loads.map((load) => load.bakes.filter((bake) => !leaving.has(bake)));
  const open: number[] = [];
  const bySize = [...moved].sort(([a], [b]) => areaOf(draft, b) - areaOf(draft, a) || a - b);
  for (const [bake, at] of bySize) {
    const joined = at < 0 ? undefined : [...bakesOf[at]!, bake];
    if (joined !== undefined && draft.fits(draft.loads[at]!.oven, joined)) bakesOf[at] = joined;
    else open.push(bake);
  }
  const loads = draft.loads.map((load, at) =>
    sameBakes(load.bakes, bakesOf[at]!) ? load : withBakes(load, bakesOf[at]!),
  );
  const filled = loads.filter(({ bakes }) => bakes.length > 0);
  if (filled.some(({ oven, bakes }) => !draft.fits(oven, bakes))) return undefined;
  const { loads: kept, taken } = without(new Draft(draft.book, filled), open);
  return { loads: kept, open: [...open, ...taken] };
}

function areaOf(draft: Draft, bake: number): number {
  return draft.day.kinds[draft.day.bakes[bake]!.kind]!.areaDm2;
}

function sameBakes(one: readonly number[], other: readonly number[]): boolean {
  return one.length === other.length && one.every((bake, index) => bake === other[index]);
}
