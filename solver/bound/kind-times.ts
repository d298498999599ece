/** What a lone bake of each kind takes at least in each oven, from any chamber it can meet. The exact search's floor uses it. */
import type { DayModel } from "../day/day-model.ts";
import type { FixedCycle, ThermalCycle } from "../shop.ts";
import type { LooseFiring } from "./loose-firing.ts";
import type { LoadSets } from "./load-sets.ts";

/** Minutes; gas in kWh. Infinity where the kind is never baked in that oven. */
export interface KindTimes {
  /** Door opening to done. */
  readonly doneMinutes: number;
  /** The same from a chamber that an earlier firing can leave, or that is heated up first with the minutes that takes. */
  readonly packedMinutes: number;
  /** Door opening to the hand. */
  readonly handMinutes: number;
  /** Done to the hand; a pan that waits in the oven for the sake of it counts from when it could have been done. */
  readonly coolMinutes: number;
  /** Gas less what it leaves in the chamber plus what it found there. */
  readonly spentKWh: number;
  /** Gas plus what it found in the chamber, whatever it leaves there. */
  readonly neededKWh: number;
}

const NEVER: KindTimes = {
  doneMinutes: Infinity,
  packedMinutes: Infinity,
  handMinutes: Infinity,
  coolMinutes: Infinity,
  spentKWh: Infinity,
  neededKWh: Infinity,
};
/** Chambers looked at together, and those that matter for gas in the end. */
const STRIDE_K = 20;
const FINEST_K = 2.5;

/** Gas it takes to warm the empty chamber from the room to `chamberC`, kWh. */
export function storedKWh(cycle: ThermalCycle, ambientC: number, chamberC: number): number {
  return (cycle.heatCapacityKJPerK * Math.max(0, chamberC - ambientC)) / 3600 / cycle.efficiency;
}

/** Firings from chambers between the two, °C. */
interface Seen {
  readonly coolC: number;
  readonly hotC: number;
  readonly firings: readonly LooseFiring[];
}

/** Per kind that the day bakes, and oven. */
export function kindTimes(sets: LoadSets): ReadonlyMap<number, readonly KindTimes[]> {
  const { day } = sets;
  const kinds = [...new Set(day.bakes.map(({ kind }) => kind))];
  const times = new Map<number, KindTimes[]>(kinds.map((kind) => [kind, day.request.ovens.map(() => NEVER)]));
  day.request.ovens.forEach(({ cycle }, oven) => {
    const own = kinds.filter((kind) => day.kinds[kind]!.ovens.includes(oven));
    const seen = own.map((kind) => lookAt(sets, oven, kind));
    const { mixing } = day.request;
    const ends = seen.flat().flatMap(({ firings }) => firings.map(({ hotC }) => hotC));
    const startC = cycle.kind === "thermal" ? cycle.startC : 0;
    const leftC = Math.max(startC, mixing.cleanBurn?.setPointC ?? -Infinity, ...ends);
    own.forEach((kind, at) => {
      times.get(kind)![oven] = { ...timesOf(day, oven, seen[at]!, leftC), ...gasOf(sets, oven, kind, seen[at]!) };
    });
  });
  return times;
}

function lookAt(sets: LoadSets, oven: number, kind: number): Seen[] {
  const set = sets.set(oven, [kind], [1]);
  if (set === undefined) return [];
  const { cycle } = sets.day.request.ovens[oven]!;
  if (cycle.kind === "fixed") return [{ coolC: 0, hotC: 0, firings: sets.firings(set, 0, 1).firings }];
  const { bucketK } = sets.grain;
  const found: Seen[] = [];
  const hottestC = sets.hottestBucket(oven) * bucketK;
  for (let hotC = sets.coolestBucket() * bucketK; ; hotC = Math.min(hottestC, hotC + STRIDE_K)) {
    const coolC = hotC - STRIDE_K;
    found.push({ coolC, hotC, firings: sets.wideFirings(set, coolC, hotC) });
    if (hotC === hottestC) return found;
  }
}

function timesOf(day: DayModel, oven: number, seen: readonly Seen[], leftC: number): KindTimes {
  const { cycle } = day.request.ovens[oven]!;
  const { loadMinutes, unloadMinutes } = cycle;
  const most = Math.max(leftC, ...seen.flatMap(({ firings }) => firings.map(({ setPointC }) => setPointC)));
  let times = NEVER;
  for (const { coolC, firings } of seen) {
    if (coolC > most) continue;
    for (const firing of firings) {
      const doneMinutes = loadMinutes + firing.closedMinutes + unloadMinutes;
      times = {
        ...times,
        doneMinutes: Math.min(times.doneMinutes, doneMinutes),
        packedMinutes: Math.min(times.packedMinutes, doneMinutes + heatingMinutes(cycle, coolC - leftC)),
        handMinutes: Math.min(times.handMinutes, doneMinutes + firing.handMinutes[0]!),
        coolMinutes: Math.min(times.coolMinutes, firing.handMinutes[0]!),
      };
    }
  }
  return times;
}

/**
 * The least of both over all chambers. What a span of chambers makes uncertain is what it holds between its ends, so that
 * the span with the least is halved until it is narrow.
 */
function gasOf(
  sets: LoadSets,
  oven: number,
  kind: number,
  seen: readonly Seen[],
): Pick<KindTimes, "spentKWh" | "neededKWh"> {
  const { cycle } = sets.day.request.ovens[oven]!;
  const { ambientC } = sets.day.request;
  const set = sets.set(oven, [kind], [1]);
  const least = (of: (firing: LooseFiring, foundKWh: number) => number): number => {
    const spans = seen.map((span) => ({ ...span, kWh: 0 }));
    const weigh = (span: Seen): number => {
      const foundKWh = cycle.kind === "fixed" ? 0 : storedKWh(cycle, ambientC, span.coolC);
      return Math.min(Infinity, ...span.firings.map((firing) => Math.max(0, of(firing, foundKWh))));
    };
    for (const span of spans) span.kWh = weigh(span);
    for (;;) {
      const at = spans.reduce((best, { kWh }, i) => (kWh < (spans[best]?.kWh ?? Infinity) ? i : best), -1);
      const span = spans[at];
      if (span === undefined) return Infinity;
      const { coolC, hotC, kWh } = span;
      if (set === undefined || hotC - coolC <= FINEST_K || kWh <= 0) return kWh;
      const middleC = (coolC + hotC) / 2;
      const halves = [
        { coolC, hotC: middleC },
        { coolC: middleC, hotC },
      ].map((half) => ({ ...half, firings: sets.wideFirings(set, half.coolC, half.hotC) }));
      spans.splice(at, 1, ...halves.map((half) => ({ ...half, kWh: weigh(half) })));
    }
  };
  return {
    spentKWh: least(({ gasKWh, hotC }, foundKWh) => gasKWh + foundKWh - leftKWh(hotC)),
    neededKWh: least(({ gasKWh }, foundKWh) => gasKWh + foundKWh),
  };

  function leftKWh(hotC: number): number {
    return cycle.kind === "fixed" ? 0 : storedKWh(cycle, ambientC, hotC);
  }
}

/** Full fire on the empty chamber with nothing lost. */
function heatingMinutes(cycle: ThermalCycle | FixedCycle, kelvin: number): number {
  if (cycle.kind === "fixed" || kelvin <= 0) return 0;
  return cycle.purgeMinutes + (cycle.heatCapacityKJPerK * kelvin) / (60 * cycle.burnerKW * cycle.efficiency);
}
