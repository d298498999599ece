/**
 * HiGHS (an open MIP solver, MIT licence) on a direct model of a small open instance with one oven and one family, at
 * the same time limit: what a shop would get that hands its problem to a general solver.
 */
import loadHighs from "highs";
import { performance } from "node:perf_hooks";
import type { JobProblem } from "../help/public-jobs.ts";
import type { Instance } from "./instances.ts";
import { loadTimeModel, tardinessModel } from "./highs-model.ts";
import { blank } from "./run.ts";
import type { Run, RunWish } from "./run.ts";

export async function runHighs(instance: Instance, wish: RunWish): Promise<Run> {
  const { problem } = instance;
  if (problem === null || problem.objective === "loads" || !isPlain(problem)) {
    return { ...blank(instance, wish), status: "no model" };
  }
  const text = problem.objective === "load time" ? loadTimeModel(problem) : tardinessModel(problem);
  const highs = await loadHighs();
  const began = performance.now();
  return highs.withModel({ format: "lp", data: text }, (model) => {
    model.options.set({ output_flag: false, mip_rel_gap: 0, mip_abs_gap: 1e-6, random_seed: wish.seed });
    model.options.set("time_limit", wish.budget.seconds ?? 10);
    model.run();
    const found = Number(model.info.get("primal_solution_status")) === FEASIBLE;
    const bound = Number(model.info.get("mip_dual_bound"));
    const value = found ? model.getObjectiveValue() : null;
    return {
      ...blank(instance, wish),
      value,
      bound: Number.isFinite(bound) ? Math.max(0, bound) : 0,
      seconds: (performance.now() - began) / 1000,
      steps: Number(model.info.get("mip_node_count")),
      status: value === null ? "no plan" : value - bound < 1e-6 ? "proven" : "time",
    };
  });
}

const FEASIBLE = 2;

function isPlain({ ovens, jobs }: JobProblem): boolean {
  return ovens === 1 && new Set(jobs.map(({ family }) => family)).size === 1;
}
