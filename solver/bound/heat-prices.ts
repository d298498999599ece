/**
 * What heat is worth to bakes that must be: the prices of an LP over flows of heat – every kind as often as loads of it must be;
 * what is taken out of a stretch of chamber temperature is put there by others or was there at first. Its columns are made as
 * they are found cheaper than the prices so far (Dantzig and Wolfe, Decomposition principle for linear programs, Operations
 * Research 8, 1960).
 */
import { createLp } from "../lp/lp.ts";
import type { LinearModel } from "../lp/model.ts";
import type { Flow } from "./heat-flows.ts";
import { FIRE } from "./heat-flows.ts";

export interface HeatDemand {
  /** Per kind: loads that must be. */
  readonly loads: ReadonlyMap<number, number>;
  /** Per stretch: how much of it is there at first. */
  readonly held: readonly number[];
}

interface Prices {
  readonly ofKind: ReadonlyMap<number, number>;
  readonly ofLast: number;
  readonly ofStretch: readonly number[];
}

const MOST_ROUNDS = 60;
const TINY = 1e-6;

/** Per whole stretch, in the unit of the flows' cost; undefined where the LP solver has no answer. */
export function heatPrices(flows: readonly Flow[], { loads, held }: HeatDemand): readonly number[] | undefined {
  const lp = createLp();
  const kinds = [...loads.keys()];
  const asked = flows.filter(({ kind }) => kind === FIRE || loads.has(kind));
  const isLast = asked.some((flow) => flow.isLast) ? 1 : 0;
  // Fires through one stretch each make whatever heat is taken out.
  const chosen = new Set(
    asked.filter(({ kind, heat }) => kind === FIRE && heat.filter((share) => share > 0).length === 1),
  );
  let prices: Prices = { ofKind: new Map(), ofLast: 0, ofStretch: held.map(() => 0) };
  for (let round = 0; round < MOST_ROUNDS; round++) {
    const before = chosen.size;
    for (const flow of cheapestOfEach(asked, prices, round === 0)) chosen.add(flow);
    if (chosen.size === before) break;
    const answer = lp.solve(modelOf([...chosen], { loads, held }, isLast));
    if (answer.status !== "optimal" || answer.duals === undefined) return undefined;
    const { duals } = answer;
    prices = {
      ofKind: new Map(kinds.map((kind, at) => [kind, duals[at]!])),
      ofLast: duals[kinds.length]!,
      ofStretch: held.map((_, at) => duals[kinds.length + 1 + at]!),
    };
  }
  return prices.ofStretch;
}

/** Of each kind, last or not, the one furthest below the prices; at `first` whether below them or not. */
function cheapestOfEach(flows: readonly Flow[], { ofKind, ofLast, ofStretch }: Prices, first: boolean): Flow[] {
  const cheapest = new Map<string, { readonly flow: Flow; readonly cost: number }>();
  for (const flow of flows) {
    const { kind, isLast, heat } = flow;
    let cost = flow.cost - (ofKind.get(kind) ?? 0) - (isLast ? ofLast : 0);
    for (let at = 0; at < heat.length; at++) cost -= heat[at]! * ofStretch[at]!;
    const key = `${kind}/${isLast}`;
    const known = cheapest.get(key);
    if (known === undefined || cost < known.cost) cheapest.set(key, { flow, cost });
  }
  return [...cheapest.values()].flatMap(({ flow, cost }) => (first || cost < -TINY ? [flow] : []));
}

/** Rows: kinds, the last load, stretches. Columns: flows. */
function modelOf(flows: readonly Flow[], { loads, held }: HeatDemand, isLast: number): LinearModel {
  const atLeast = (rhs: number, valueOf: (flow: Flow) => number): LinearModel["rows"][number] => {
    const values = flows.map(valueOf);
    const columns = values.flatMap((value, index) => (value === 0 ? [] : [index]));
    return { kind: ">=", rhs, columns, values: columns.map((index) => values[index]!) };
  };
  return {
    sense: "min",
    columns: flows.map(({ cost }) => ({ cost })),
    rows: [
      ...[...loads].map(([kind, many]) => atLeast(many, (flow) => (flow.kind === kind ? 1 : 0))),
      atLeast(isLast, (flow) => (flow.isLast ? 1 : 0)),
      ...held.map((share, stretch) => atLeast(-share, ({ heat }) => heat[stretch]!)),
    ],
  };
}
