/** HiGHS (an open LP and MIP solver, MIT licence, University of Edinburgh) as the reference of the LP tests. */
import loadHighs from "highs";
import type { LinearModel } from "../../solver/lp/model.ts";

export interface Reference {
  /** "unknown" when HiGHS itself gives no verdict. */
  readonly status: "optimal" | "infeasible" | "unbounded" | "unknown";
  readonly value: number;
}

/**
 * Solves models with HiGHS, gaps closed fully. Whether a model without an optimum is infeasible or unbounded is asked
 * in two steps, any point at all and then the relaxation without presolve: on mixed questions its presolve has been seen
 * to call unbounded models infeasible.
 */
export async function openHighs(): Promise<(model: LinearModel) => Reference> {
  const highs = await loadHighs();
  const solve = (model: LinearModel, presolve: "on" | "off"): { Status: string; ObjectiveValue: number } =>
    highs.solve(toLpText(model), { output_flag: false, presolve, mip_rel_gap: 0, mip_abs_gap: 1e-9, time_limit: 20 });
  return (model) => {
    const answer = solve(model, "on");
    if (answer.Status === "Optimal") return { status: "optimal", value: answer.ObjectiveValue };
    const anyPoint = solve({ ...model, columns: model.columns.map((c) => ({ ...c, cost: 0 })) }, "on").Status;
    if (anyPoint === "Infeasible") return { status: "infeasible", value: NaN };
    const relaxed = solve({ ...model, columns: model.columns.map((c) => ({ ...c, integer: false })) }, "off").Status;
    const endless = anyPoint === "Optimal" && ["Unbounded", "Primal infeasible or unbounded"].includes(relaxed);
    return { status: endless ? "unbounded" : "unknown", value: NaN };
  };
}

function toLpText(model: LinearModel): string {
  const names = model.columns.map((_, j) => `x${j}`);
  const cost = sum(
    model.columns.map((c) => c.cost),
    names,
  );
  const rows = model.rows.map((row, i) => {
    const terms = sum(
      row.values,
      row.columns.map((j) => names[j] ?? ""),
    );
    return `r${i}: ${terms || `0 ${names[0]}`} ${row.kind} ${row.rhs}`;
  });
  const bounds = model.columns.map((c, j) => `${bound(c.low ?? 0)} <= ${names[j]} <= ${bound(c.high ?? Infinity)}`);
  const integers = names.filter((_, j) => model.columns[j]?.integer);
  const general = integers.length > 0 ? `General\n${integers.join("\n")}\n` : "";
  const sense = model.sense === "max" ? "Maximize" : "Minimize";
  return `${sense}\n cost: ${cost || `0 ${names[0]}`}\nSubject To\n${rows.join("\n")}\nBounds\n${bounds.join("\n")}\n${general}End\n`;
}

function sum(values: readonly number[], names: readonly string[]): string {
  return values
    .map((v, k) => (v === 0 ? "" : `${v < 0 ? "-" : "+"} ${Math.abs(v)} ${names[k]}`))
    .join(" ")
    .trim();
}

function bound(value: number): string {
  return Math.abs(value) === Infinity ? (value > 0 ? "+inf" : "-inf") : String(value);
}
