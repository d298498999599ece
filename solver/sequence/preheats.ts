/** For the last hand on a sequence: other pre-heats of a load, and with each of them every set-point of the bake after it. */
import type { ThermalCycle } from "../shop.ts";
import type { Evaluator } from "./evaluate.ts";
import { firingMet, setPointsFrom } from "./firing-met.ts";
import { heatOf } from "../loads/recipe.ts";
import { reshelved } from "./rearranged.ts";
import type { PlannedLoad, Sequence } from "./sequence.ts";

/** Set-points tried where a load has no pre-heat, °C, and the steps of the oven up and down from one. */
const FROM_C = 60;
const BY_K = 35;
const STEPS = [1, 2, 3, 7];
/** So many steps up and down a pre-heat is tried with every set-point. */
const CLOSE_STEPS = 6;

/** Instead of the pre-heat that the load has, or that the timetable gives it (`metC`, °C; undefined where it is not pre-heated). */
export function* preheats(
  cycle: ThermalCycle,
  { preheat }: PlannedLoad,
  metC: number | undefined,
): Generator<PlannedLoad["preheat"]> {
  const step = cycle.setPointStepC;
  const now = typeof preheat === "number" ? preheat : metC;
  const others: PlannedLoad["preheat"][] = ["auto", "never"];
  if (now !== undefined) for (const by of STEPS) others.push(now - by * step, now + by * step);
  if (typeof preheat !== "number")
    for (let setPointC = FROM_C; setPointC <= cycle.setPointMaxC; setPointC += BY_K)
      others.push(Math.round(setPointC / step) * step);
  for (const other of new Set(others))
    if (other !== preheat && (typeof other !== "number" || other <= cycle.setPointMaxC)) yield other;
}

/**
 * Load `at` of the sequence that `exact` accepted last, its pre-heat changed by little, with each set-point that bakes it then: as
 * it stands, then with one kind on other shelves.
 */
export function* preheatedAnew(exact: Evaluator, sequence: Sequence, at: number): Generator<PlannedLoad> {
  const { book, day } = exact.timetable;
  const load = sequence.loads[at]!;
  const { cycle } = day.request.ovens[load.oven]!;
  const met = firingMet(exact, sequence, at);
  if (met?.preheatC === undefined || cycle.kind !== "thermal") return;
  const { recipe, preheatC, chamberC } = met;
  const seen = new Set<string>();
  for (const changed of [load, ...reshelved(day, load)]) {
    const other = changed.shelfSet === undefined ? recipe : book.recipeOn(load.oven, recipe.kinds, changed.shelfSet);
    if (other === undefined || seen.has(heatOf(other))) continue;
    seen.add(heatOf(other));
    for (let by = -CLOSE_STEPS; by <= CLOSE_STEPS; by++) {
      const preheat = preheatC + by * cycle.setPointStepC;
      if (preheat > cycle.setPointMaxC) break;
      for (const setPointC of setPointsFrom(book, other, chamberC + preheat - preheatC))
        if (setPointC >= preheat) yield { ...changed, preheat, setPointC };
    }
  }
}

/**
 * The load before `at` in the same oven as soon as it can be, with each set-point that bakes it, and a pre-heat of load `at` in the
 * time that this leaves: neither pays alone where the first only costs gas and the second has no room.
 */
export function* madeRoomFor(exact: Evaluator, sequence: Sequence, at: number): Generator<readonly PlannedLoad[]> {
  const { loads } = sequence;
  const load = loads[at]!;
  const before = loads.findLastIndex(({ oven }, other) => other < at && oven === load.oven);
  const { cycle } = exact.timetable.day.request.ovens[load.oven]!;
  const metBefore = before < 0 ? undefined : firingMet(exact, sequence, before);
  if (metBefore === undefined || cycle.kind !== "thermal") return;
  const { recipe, chamberC } = metBefore;
  const now = firingMet(exact, sequence, at)?.preheatC;
  for (const setPointC of [0, ...setPointsFrom(exact.timetable.book, recipe, chamberC)]) {
    const sooner = loads.with(before, { ...loads[before]!, setPointC, delayMinutes: 0, coastMinutes: null });
    for (const preheat of preheats(cycle, { ...load, preheat: "auto" }, now))
      yield sooner.with(at, { ...load, preheat, setPointC: 0, delayMinutes: 0 });
    yield sooner.with(at, { ...load, preheat: "auto", setPointC: 0, delayMinutes: 0 });
  }
}
