/**
 * Solves linear and mixed-integer models: the one place that knows the simplex library, and trusts nothing it says.
 * Its presolve and cycle detector are off (both give wrong answers), it never sees bounds, names or unrestricted
 * unknowns, and its own branch and bound is not used (it has no node limit and proves nothing when cut short). Pivots
 * are counted so that it cannot run for ever. Every answer has been checked against the model.
 */
import library from "javascript-lp-solver";
import { branchAndBound } from "./branch.ts";
import { boxOf, costOf } from "./model.ts";
import type { LinearModel } from "./model.ts";
import { relax } from "./relaxation.ts";
import { toStandardForm } from "./standard-form.ts";
import type { StandardForm, TableauRow } from "./standard-form.ts";
import type { Meter, Outcome, Penalty, Tableau } from "./tableau.ts";

/**
 * `duals` (LP only): rise of `value` per unit of each row's rhs. `bound`: no point is better than that, certified.
 * "feasible": an integer search cut short. "failed": nothing certified within the limits.
 */
export type LpAnswer =
  | {
      readonly status: "optimal";
      readonly value: number;
      readonly x: readonly number[];
      readonly duals?: readonly number[];
    }
  | { readonly status: "feasible"; readonly value: number; readonly x: readonly number[]; readonly bound: number }
  | { readonly status: "infeasible" }
  | { readonly status: "unbounded" }
  | { readonly status: "too-large" }
  | { readonly status: "failed"; readonly why: string };

export interface LpLimits {
  /** Relaxations an integer search may solve; 2000 when absent. */
  readonly nodes?: number;
  /** Largest tableau accepted: rows times columns, bounds and both halves of an equality counted as rows; 250 000 when absent. */
  readonly rowsTimesColumns?: number;
  /** Pivots times tableau size over the whole call, of which a second does about 5e8 or more; 1e9 when absent. */
  readonly work?: number;
}

/** Solves and counts. */
export interface Lp {
  /** `start`: a known point of an integer model, used when it is feasible. */
  solve(model: LinearModel, limits?: LpLimits, start?: readonly number[]): LpAnswer;
  /** Linear programs solved so far, those of integer searches one by one. */
  solves(): number;
}

type LibraryModel = InstanceType<typeof library.Model>;
type LibraryTableau = LibraryModel["tableau"];

const TOLERANCE = 1e-8;
const OUT_OF_WORK = new Error("more pivots than allowed");

export function createLp(): Lp {
  const meter: Meter = { solves: 0, work: 0 };
  return {
    solve: (model, limits = {}, start) => {
      meter.work = limits.work ?? 1e9;
      return solveModel(model, limits, meter, start);
    },
    solves: () => meter.solves,
  };
}

/** Solves one model, uncounted. */
export function solveLinear(model: LinearModel, limits: LpLimits = {}): LpAnswer {
  return createLp().solve(model, limits);
}

function solveModel(model: LinearModel, limits: LpLimits, meter: Meter, start?: readonly number[]): LpAnswer {
  const box = boxOf(model);
  if (model.columns.some((_, j) => (box.low[j] ?? 0) > (box.high[j] ?? 0))) return { status: "infeasible" };
  const { parts, rows } = toStandardForm(model, box);
  if ((rows.length + 1) * (parts.length + 1) > (limits.rowsTimesColumns ?? 250_000)) return { status: "too-large" };
  const root = relax(model, box, (form) => openTableau(form, meter));
  const whole = model.columns.some((c) => c.integer);
  if (root.status === "infeasible") return { status: "infeasible" };
  if (root.status === "unbounded") return whole ? unboundedIfAnyPoint(model, limits, meter) : { status: "unbounded" };
  if (root.status === "stuck") return { status: "failed", why: "no certified answer to the linear program" };
  if (!whole) {
    const duals = model.sense === "max" ? root.duals.map((y) => 0 - y) : root.duals;
    return { status: "optimal", value: costOf(model, root.x), x: root.x, duals };
  }
  const effort = { nodes: limits.nodes ?? 2000, spent: () => meter.work <= 0 };
  const found = branchAndBound(model, root, effort, start);
  if (!found.x) return found.proven ? { status: "infeasible" } : { status: "failed", why: "no whole point found" };
  const value = costOf(model, found.x);
  if (found.proven) return { status: "optimal", value, x: found.x };
  return { status: "feasible", value, x: found.x, bound: model.sense === "max" ? -found.bound : found.bound };
}

/** A model in rational numbers with an unbounded relaxation is unbounded once it has a whole point (textbook). */
function unboundedIfAnyPoint(model: LinearModel, limits: LpLimits, meter: Meter): LpAnswer {
  const anyPoint = { ...model, columns: model.columns.map((c) => ({ ...c, cost: 0 })) };
  const answer = solveModel(anyPoint, limits, meter);
  return answer.status === "optimal" || answer.status === "feasible" ? { status: "unbounded" } : answer;
}

function openTableau(form: StandardForm, meter: Meter): Tableau {
  const model = new library.Model(TOLERANCE).minimize();
  model.usePresolve = false;
  model.checkForCycles = false;
  const variables = form.parts.map((part) => model.addVariable(part.cost));
  const slacks = form.rows.map((row) => {
    const constraint = row.kind === "<=" ? model.smallerThan(row.rhs) : model.greaterThan(row.rhs);
    row.parts.forEach((part, k) => {
      const variable = variables[part];
      if (variable) constraint.addTerm(row.values[k] ?? 0, variable);
    });
    return constraint.index;
  });
  model.tableau.setModel(model);
  model.tableauInitialized = true;
  return wrap({ model, slacks, meter }, model.tableau);
}

interface Shared {
  readonly model: LibraryModel;
  /** The library's index of the slack of each row of the form. */
  readonly slacks: readonly number[];
  readonly meter: Meter;
}

function wrap(shared: Shared, tableau: LibraryTableau): Tableau {
  payForPivots(tableau, shared.meter);
  const { variables } = shared.model;
  return {
    run: () => run(tableau, shared.meter),
    setCosts: (costs) => variables.forEach((v, k) => shared.model.setCost(costs[k] ?? 0, v)),
    values: () => variables.map((v) => at(tableau, tableau.rowByVarIndex[v.index] ?? -1, 0)),
    weights: (row) => shared.slacks.map((slack) => weightOf(tableau, row, slack)),
    impossibleRow: () => mostNegativeRow(tableau),
    ray: () => variables.map((v) => alongRay(tableau, v.index)),
    penalty: (parts, factors, fall, rise) =>
      penalty(
        tableau,
        parts.map((k) => variables[k]?.index ?? -1),
        factors,
        fall,
        rise,
      ),
    with: (rows) => wrap(shared, withRows(shared.model, tableau, rows)),
  };
}

/** Takes every pivot's effort off the meter; without this the library can cycle for ever on degenerate models. */
function payForPivots(tableau: LibraryTableau, meter: Meter): void {
  const pivot = tableau.pivot.bind(tableau);
  tableau.pivot = (row, column) => {
    meter.work -= tableau.width * tableau.height;
    if (meter.work < 0) throw OUT_OF_WORK;
    pivot(row, column);
  };
}

function run(tableau: LibraryTableau, meter: Meter): Outcome {
  meter.solves++;
  const pivots = 50 + 4 * (tableau.width + tableau.height);
  const own = Math.min(meter.work, pivots * tableau.width * tableau.height);
  const rest = meter.work - own;
  meter.work = own;
  try {
    tableau.simplex();
  } catch (error) {
    if (error !== OUT_OF_WORK) throw error;
    return "stopped";
  } finally {
    meter.work = rest + Math.max(0, meter.work);
  }
  if (!tableau.feasible) return "infeasible";
  return tableau.bounded ? "optimal" : "unbounded";
}

/** Entry of the tableau; 0 for a row or column that is not there (-1). Column 0 holds the values, row 0 the costs. */
function at(tableau: LibraryTableau, row: number, column: number): number {
  return row < 0 || column < 0 ? 0 : (tableau.matrix[row * tableau.width + column] ?? 0);
}

function weightOf(tableau: LibraryTableau, row: number, index: number): number {
  return tableau.rowByVarIndex[index] === row ? 1 : at(tableau, row, tableau.colByVarIndex[index] ?? -1);
}

function mostNegativeRow(tableau: LibraryTableau): number {
  let worst = 1;
  for (let row = 2; row < tableau.height; row++) if (at(tableau, row, 0) < at(tableau, worst, 0)) worst = row;
  return worst;
}

function alongRay(tableau: LibraryTableau, index: number): number {
  if (index === tableau.unboundedVarIndex) return 1;
  return -at(tableau, tableau.rowByVarIndex[index] ?? -1, tableau.colByVarIndex[tableau.unboundedVarIndex ?? -1] ?? -1);
}

function penalty(
  tableau: LibraryTableau,
  indices: readonly number[],
  factors: readonly number[],
  fall: number,
  rise: number,
): Penalty {
  let down = Infinity;
  let up = Infinity;
  for (let column = 1; column < tableau.width; column++) {
    let pull = 0;
    indices.forEach((index, k) => {
      const own =
        tableau.colByVarIndex[index] === column ? -1 : at(tableau, tableau.rowByVarIndex[index] ?? -1, column);
      pull += (factors[k] ?? 0) * own;
    });
    const price = Math.max(0, -at(tableau, 0, column));
    if (pull > TOLERANCE) down = Math.min(down, (fall * price) / pull);
    if (pull < -TOLERANCE) up = Math.min(up, (rise * price) / -pull);
  }
  return { down, up };
}

function withRows(model: LibraryModel, from: LibraryTableau, rows: readonly TableauRow[]): LibraryTableau {
  const tableau = from.copy();
  for (const row of rows) {
    const constraint = new library.Constraint(row.rhs, row.kind === "<=", tableau.getNewElementIndex(), model);
    row.parts.forEach((part, k) => {
      const variable = model.variables[part];
      if (variable) constraint.terms.push(new library.Term(variable, row.values[k] ?? 0));
    });
    tableau.addConstraint(constraint);
  }
  return tableau;
}
