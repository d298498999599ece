/**
 * The worth of chamber heat at which the day's bakes cost as much as can be proven: heat that no bake to come can use counts for
 * less than what made it. Any worth makes a bound, so that nothing hangs on what the LP solver says; it only finds good ones.
 */
import { leastOf } from "./fewest-loads.ts";
import type { Look } from "./heat-flows.ts";
import { bakeFlows, fireFlows, heldAtFirst, stretchesOf, worthOf } from "./heat-flows.ts";
import { heatPrices } from "./heat-prices.ts";
import { kindFamilies } from "./kind-families.ts";
import { closeShares } from "./load-shares.ts";
import type { LoneBakes } from "./lone-bakes.ts";
import type { Tariff } from "./tariff.ts";
import { closeLook, spentBy, tariffOf } from "./tariff.ts";

/** Each on closer looks than the one before. */
const PROGRAMS = 2;
const TINY = 1e-6;

/** The best of several tariffs at the rates of `plain` by what they say of the whole day; `plain` where none says more. */
export function scarceHeat(lone: LoneBakes, plain: Tariff): Tariff {
  const { day } = lone.sets;
  const { rates } = plain;
  const stretches = stretchesOf(lone);
  const held = heldAtFirst(stretches);
  const fires = fireFlows(rates, stretches);
  const ends = lastKinds(lone);
  const costOfDay = dayCost(lone, ends);
  const looks = lone.kinds.flatMap((kind) =>
    day.kinds[kind]!.ovens.map((oven): Look => ({ kind, oven, spans: lone.spans(kind, oven) })),
  );
  const loads = new Map<number, number>();
  let most = costOfDay(plain, (kind, more) => loads.set(kind, (loads.get(kind) ?? 0) + more));
  let best = plain;
  let tariff = plain;
  for (let program = 0; program < PROGRAMS && stretches.length > 0; program++) {
    for (const look of looks) {
      const weigh = spentBy(lone, rates, tariff.worth, look.oven);
      look.spans = closeLook(lone, look.kind, look.oven, look.spans, weigh).spans;
    }
    const bakes = looks.flatMap((look) => bakeFlows(lone, rates, stretches, look, ends));
    const prices = heatPrices([...bakes, ...fires], { loads, held });
    if (prices === undefined) break;
    tariff = tariffOf(lone, rates, worthOf(rates, stretches, prices));
    const cost = costOfDay(tariff);
    if (cost <= most + TINY) break;
    best = tariff;
    most = cost;
  }
  return best;
}

/** Those of pans' last coats. */
function lastKinds({ sets: { day } }: LoneBakes): ReadonlySet<number> {
  return new Set(day.bakes.flatMap(({ pan, step, kind }) => (step === day.pans[pan]!.due.length - 1 ? [kind] : [])));
}

type Charge = (kind: number, loads: number) => void;

/** What the whole day costs at least by a tariff. */
function dayCost(lone: LoneBakes, ends: ReadonlySet<number>): (tariff: Tariff, charge?: Charge) => number {
  const { day } = lone.sets;
  const families = kindFamilies(lone.sets, lone.kinds);
  const shares = closeShares(day);
  const counts = new Map<number, number>();
  for (const { kind } of day.bakes) counts.set(kind, (counts.get(kind) ?? 0) + 1);
  return ({ worth, spent, needed }, charge) => {
    const least = (per: Tariff["spent"], kind: number): number => Math.min(Infinity, ...(per.get(kind) ?? []));
    const lost = [...ends].map((kind) => least(needed, kind) - least(spent, kind));
    let sum = lost.length === 0 ? 0 : Math.min(...lost);
    for (const family of families) {
      const parts = family.map((kind) => ({
        kind,
        shares: shares[kind]!,
        count: counts.get(kind)!,
        cost: least(spent, kind),
      }));
      parts.sort((a, b) => b.cost - a.cost);
      sum += leastOf(
        parts,
        ({ cost }) => cost,
        ({ kind }, more) => charge?.(kind, more),
      );
    }
    day.request.ovens.forEach(({ cycle }, oven) => {
      if (cycle.kind === "thermal") sum -= worth(oven, cycle.startC);
    });
    return sum;
  };
}
