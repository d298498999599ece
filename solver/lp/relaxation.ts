/**
 * LP relaxations whose answers are certified: runs a tableau, reads point, multipliers or ray from it, and keeps only
 * what the model itself confirms.
 */
import { dualBound, improvesForEver, isFeasible, provesInfeasible } from "./certificate.ts";
import { costOf } from "./model.ts";
import type { Box, LinearModel } from "./model.ts";
import { toColumns, toStandardForm } from "./standard-form.ts";
import type { StandardForm, TableauRow } from "./standard-form.ts";
import type { Outcome, Penalty, Tableau } from "./tableau.ts";

/** An LP relaxation solved in one box. */
export interface Relaxation {
  readonly box: Box;
  /** "stuck" when the library gave no answer that could be certified. */
  readonly status: "optimal" | "infeasible" | "unbounded" | "stuck";
  readonly x: readonly number[];
  /** One per model row, minimising sense. */
  readonly duals: readonly number[];
  /** Certified least cost in the box, minimising sense; -Infinity when nothing is proven. */
  readonly bound: number;
  /** How hard it is, in no unit, to move integer column `j` to the whole number below or above. */
  penalty(j: number): Penalty;
  /** The relaxation in a box inside this one. */
  within(box: Box): Relaxation;
  /** The relaxation with the integer columns fixed at the whole values of `x`. */
  fix(x: readonly number[]): Relaxation;
}

export type OpenTableau = (form: StandardForm) => Tableau;

interface Solved {
  readonly box: Box;
  readonly form: StandardForm;
  readonly tableau: Tableau;
}

interface Setting {
  readonly model: LinearModel;
  /** The model without its integrality. */
  readonly relaxed: LinearModel;
  readonly open: OpenTableau;
}

/** Tableau entries below this are rounding left over from zero. */
const NOISE = 1e-11;

/** The relaxation of the whole model. */
export function relax(model: LinearModel, box: Box, open: OpenTableau): Relaxation {
  const relaxed = { ...model, columns: model.columns.map((c) => ({ ...c, integer: false })) };
  return solveAfresh({ model, relaxed, open }, box);
}

/**
 * Plainly first. Then, for models on which that cycles or loses its digits, in a textbook order: made-up positive
 * costs, all different, so that the start is dual feasible and ties are rare; then the true costs from there.
 */
function solveAfresh(setting: Setting, box: Box): Relaxation {
  const form = toStandardForm(setting.model, box);
  const plain = setting.open(form);
  const answer = read(setting, box, form, plain, plain.run());
  if (answer.status !== "stuck") return answer;
  const safe = setting.open(form);
  safe.setCosts(form.parts.map((_, k) => 1 + ((k * 0.6180339887498949) % 1)));
  const outcome = safe.run();
  if (outcome !== "optimal") return read(setting, box, form, safe, outcome);
  safe.setCosts(form.parts.map((part) => part.cost));
  return read(setting, box, form, safe, safe.run());
}

function read(setting: Setting, box: Box, form: StandardForm, tableau: Tableau, outcome: Outcome): Relaxation {
  const x = toColumns(form, tableau.values());
  const duals = multipliers(setting.model, form, tableau.weights(0), 1 / form.costScale);
  const bound = outcome === "optimal" ? dualBound(setting.model, box, duals) : -Infinity;
  const certified =
    (outcome === "optimal" && isFeasible(setting.relaxed, box, x) && meets(setting.model, x, bound)) ||
    (outcome === "infeasible" && isEmpty(setting.model, box, form, tableau)) ||
    (outcome === "unbounded" && isFeasible(setting.relaxed, box, x) && isEndless(setting.model, box, form, tableau));
  return {
    box,
    status: certified ? outcome : "stuck",
    x,
    duals,
    bound,
    penalty: (j) => {
      const parts = form.partsOf[j] ?? [];
      const above = (x[j] ?? 0) - Math.floor(x[j] ?? 0);
      return tableau.penalty(
        parts,
        parts.map((k) => form.parts[k]?.factor ?? 0),
        above,
        1 - above,
      );
    },
    within: (inner) => within(setting, { box, form, tableau }, inner),
    fix: (whole) => solveAfresh(setting, fixed(setting.model, box, whole)),
  };
}

/** Adds the moved bounds to the tableau as it stands, a short dual simplex run; solves afresh when that is not certified. */
function within(setting: Setting, from: Solved, box: Box): Relaxation {
  const moved = (side: "low" | "high"): TableauRow[] =>
    setting.model.columns.flatMap((_, j) => {
      const value = box[side][j] ?? 0;
      return value === from.box[side][j] ? [] : [boundRow(from.form, j, side, value)];
    });
  const child = from.tableau.with([...moved("low"), ...moved("high")]);
  const warm = read(setting, box, from.form, child, child.run());
  return warm.status === "stuck" ? solveAfresh(setting, box) : warm;
}

function boundRow(form: StandardForm, j: number, side: "low" | "high", value: number): TableauRow {
  const parts = form.partsOf[j] ?? [];
  const values = parts.map((k) => form.parts[k]?.factor ?? 0);
  return { row: -1, kind: side === "high" ? "<=" : ">=", rhs: value - (form.base[j] ?? 0), parts, values };
}

function fixed(model: LinearModel, box: Box, x: readonly number[]): Box {
  const at = (own: Float64Array): Float64Array => own.map((v, j) => (model.columns[j]?.integer ? (x[j] ?? v) : v));
  return { low: at(box.low), high: at(box.high) };
}

/** Multipliers of the model's rows from the weights of the tableau's, which hold "<=" rows as they are and ">=" negated. */
function multipliers(model: LinearModel, form: StandardForm, weights: readonly number[], scale: number): number[] {
  const y = model.rows.map(() => 0);
  form.rows.forEach(({ row, kind }, t) => {
    const raw = weights[t] ?? 0;
    if (row < 0 || Math.abs(raw) < NOISE) return;
    const weight = raw * (form.rowScale[row] ?? 1) * scale;
    y[row] = (y[row] ?? 0) + (kind === "<=" ? weight : -weight);
  });
  return y;
}

/** Strong duality to about 7 digits: nothing can be cheaper than `x` by more. */
function meets(model: LinearModel, x: readonly number[], bound: number): boolean {
  const cost = (model.sense === "max" ? -1 : 1) * costOf(model, x);
  return bound > -Infinity && cost - bound <= 1e-7 * Math.max(1e-3, Math.abs(cost));
}

function isEmpty(model: LinearModel, box: Box, form: StandardForm, tableau: Tableau): boolean {
  return provesInfeasible(model, box, multipliers(model, form, tableau.weights(tableau.impossibleRow()), -1));
}

function isEndless(model: LinearModel, box: Box, form: StandardForm, tableau: Tableau): boolean {
  const ray = toColumns({ ...form, base: new Float64Array(form.base.length) }, tableau.ray());
  return improvesForEver(model, box, ray);
}
