/**
 * What grouping saves: the gas of the plan's bakes against two stated habits, same physics. Each habit bakes exactly
 * the coats that the plan bakes, with the quickest sound firing each time, back to back from the same first chamber
 * temperature, whatever the clock, the booth and the promises say. Habits fire no clean burns and never pre-heat.
 */
import type { DayModel } from "../day/day-model.ts";
import type { FiringPlan, Load, Saving } from "../firing-plan.ts";
import type { FiringOption } from "../heat/options.ts";
import { loneOffsets, memberAt } from "../loads/lone-pan.ts";
import type { RecipeBook } from "../loads/recipe-book.ts";
import { EXACT_BUCKET_K } from "../loads/recipe-book.ts";
import { quickestAlone, quicker } from "./quickest-firing.ts";

/** One bake of the plan, by kind and oven. */
interface PlannedBake {
  readonly line: number;
  readonly item: number;
  readonly coat: number;
  readonly kind: number;
  readonly oven: number;
  /** Its share of its load's gas: counts where no sound firing repeats a fact, or only one from a chamber heated up for it. */
  readonly shareKWh: number;
}

/** What of a load the habits are compared by; pans are indices into the request's lines, coats counted from 1. */
export type FiredLoad = Pick<Load, "oven" | "gasKWh" | "chamberStartC"> & {
  readonly pans: readonly Pick<Load["pans"][number], "line" | "item" | "coat">[];
};

/** Both habits, in the order the plan file lists them. */
export function savings(book: RecipeBook, loads: readonly FiredLoad[], gasKWh: number): FiringPlan["savings"] {
  const bakes = bakesOf(book.day, loads);
  const chambers = firstChambers(book.day, loads);
  const habits = [
    { habit: "one pan per firing", firings: onePanPerFiring(book.day, bakes) },
    { habit: "ticket order", firings: ticketOrder(book, bakes) },
  ] as const;
  return habits.map(({ habit, firings }): Saving => {
    const kWh = gasOf(book, firings, chambers);
    const savedKWh = kWh - gasKWh;
    return { habit, firings: firings.length, kWh, savedKWh, savedCost: savedKWh * book.day.request.prices.gasPerKWh };
  });
}

function bakesOf(day: DayModel, loads: readonly FiredLoad[]): PlannedBake[] {
  return loads.flatMap((load) =>
    load.pans.map(({ line, item, coat }) => ({
      line,
      item,
      coat,
      kind: day.lineKinds[line]![coat - 1]!,
      oven: load.oven,
      shareKWh: load.gasKWh / load.pans.length,
    })),
  );
}

/** Per oven: the chamber at the plan's first door opening. */
function firstChambers(day: DayModel, loads: readonly FiredLoad[]): number[] {
  return day.request.ovens.map(
    (_, oven) => loads.find((load) => load.oven === oven)?.chamberStartC ?? day.request.ambientC,
  );
}

interface HabitLoad {
  readonly oven: number;
  readonly kinds: readonly number[];
  readonly shareKWh: number;
}

/** Pan by pan in ticket order, coat by coat. */
function onePanPerFiring(day: DayModel, bakes: readonly PlannedBake[]): HabitLoad[] {
  const ticketAt = (bake: PlannedBake): number =>
    day.tickets.findIndex((one) => one.name === day.request.lines[bake.line]!.ticket);
  const order = [...bakes].sort(
    (a, b) => ticketAt(a) - ticketAt(b) || a.line - b.line || a.item - b.item || a.coat - b.coat,
  );
  return order.map(({ oven, kind, shareKWh }) => ({ oven, kinds: [kind], shareKWh }));
}

/** Pans by ready time, then ticket; a pan joins the open load of its coating and coat while there is room. */
function ticketOrder(book: RecipeBook, bakes: readonly PlannedBake[]): HabitLoad[] {
  const { lines } = book.day.request;
  const order = [...bakes].sort((a, b) => {
    const ready = lines[a.line]!.readyMinute - lines[b.line]!.readyMinute;
    if (a.coat !== b.coat) return a.coat - b.coat;
    if (ready !== 0) return ready;
    const [one, other] = [lines[a.line]!.ticket, lines[b.line]!.ticket];
    return one < other ? -1 : one > other ? 1 : a.line - b.line || a.item - b.item;
  });
  const done: HabitLoad[] = [];
  let open: { oven: number; coat: unknown; kinds: number[]; shareKWh: number } | undefined;
  for (const bake of order) {
    const { coat } = book.day.kinds[bake.kind]!;
    if (open !== undefined && open.coat === coat && open.oven === bake.oven) {
      const joined = [...open.kinds, bake.kind].sort((a, b) => a - b);
      if (book.recipe(open.oven, joined) !== undefined) {
        open.kinds = joined;
        open.shareKWh += bake.shareKWh;
        continue;
      }
    }
    if (open !== undefined) done.push(open);
    open = { oven: bake.oven, coat, kinds: [bake.kind], shareKWh: bake.shareKWh };
  }
  return open === undefined ? done : [...done, open];
}

/** kWh of firings back to back, each the quickest sound one from the chamber that the one before leaves. */
function gasOf(book: RecipeBook, firings: readonly HabitLoad[], firstC: readonly number[]): number {
  const chamberC = [...firstC];
  let kWh = 0;
  const asks = new Map<string, FiringsFrom>();
  for (const { oven, kinds, shareKWh } of firings) {
    const { cycle } = book.day.request.ovens[oven]!;
    if (cycle.kind === "fixed") {
      const cycleMinutes = Math.max(...kinds.map((kind) => book.day.kinds[kind]!.coat.cycleMinutes ?? 0));
      kWh += (cycle.gasKW * cycleMinutes) / 60;
      continue;
    }
    const ask =
      asks.get(`${oven}/${kinds.join()}`) ??
      keptAnswers(kinds.length === 1 ? loneFirings(book.day, oven, kinds[0]!) : sharedFirings(book, oven, kinds));
    asks.set(`${oven}/${kinds.join()}`, ask);
    const quickest = quickestFrom(book.day.request.ambientC, Math.min(chamberC[oven]!, cycle.doorLimitC), ask);
    kWh += quickest?.gasKWh ?? shareKWh;
    chamberC[oven] = quickest?.chamberAtDoneC ?? chamberC[oven]!;
  }
  return kWh;
}

type FiringsFrom = (chamberC: number) => readonly FiringOption[];

/** Habits fire the same pans from the same few chambers over and over. */
function keptAnswers(ask: FiringsFrom): FiringsFrom {
  const kept = new Map<number, readonly FiringOption[]>();
  return (chamberC) => {
    const key = Math.round(chamberC / EXACT_BUCKET_K);
    const known = kept.get(key) ?? ask(chamberC);
    kept.set(key, known);
    return known;
  };
}

/** One pan may stand on any shelf that takes it. */
function loneFirings(day: DayModel, oven: number, kind: number): FiringsFrom {
  const { cycle, space } = day.request.ovens[oven]!;
  if (cycle.kind === "fixed" || space.kind === "area") return () => [];
  const bake = day.kinds[kind]!;
  const alone = loneOffsets(space, bake).map((offsetC) => [memberAt(bake, offsetC)]);
  const { ambientC } = day.request;
  return (chamberC) => alone.flatMap((members) => quickestAlone(cycle, ambientC, members, chamberC) ?? []);
}

function sharedFirings(book: RecipeBook, oven: number, kinds: readonly number[]): FiringsFrom {
  const recipe = book.recipe(oven, kinds);
  return (chamberC) => (recipe === undefined ? [] : book.firings(recipe, chamberC, EXACT_BUCKET_K));
}

/** The quickest firing from this chamber, else from the nearest cooler one that has any. */
function quickestFrom(ambientC: number, chamberC: number, firings: FiringsFrom): FiringOption | undefined {
  const starts = [chamberC];
  for (let startC = chamberC - STEP_K; startC > ambientC; startC -= STEP_K) starts.push(startC);
  starts.push(ambientC);
  for (const startC of starts) {
    const options = firings(startC).filter(({ unloadMinutes }) => unloadMinutes <= LONGEST_MINUTES);
    if (options.length > 0) return options.reduce((best, option) => (quicker(option, best) ? option : best));
  }
  return undefined;
}

const STEP_K = 5;
/** Nobody waits longer than a day for a door. */
const LONGEST_MINUTES = 24 * 60;
