/**
 * The long runs of what the tests do in short: `node --import tsx tests/bench/robustness.ts kill 400`, `fuzz 10000`,
 * `busy 60` (seconds), `replan 40` or `view 40`. Prints its figures; ends with 1 where anything was not as it must be.
 */
import { busyRun } from "../help/busy-run.ts";
import { firstAnswers } from "../help/first-answers.ts";
import { firstViews } from "../help/first-views.ts";
import { fuzzRun } from "../help/fuzz-run.ts";
import { killRuns } from "../help/kill-runs.ts";

const [what = "", count = ""] = process.argv.slice(2);
const many = Number(count);
if (!["kill", "fuzz", "busy", "replan", "view"].includes(what) || !(many > 0)) {
  process.stderr.write("Say what and how much: kill RUNS, fuzz REQUESTS, busy SECONDS, replan TIMES or view TIMES.\n");
  process.exit(2);
}

const began = performance.now();
const every = (step: number) => (done: number) => {
  if (done % step === 0) process.stdout.write(`${done} after ${((performance.now() - began) / 1000).toFixed(0)} s\n`);
};
const figures =
  what === "kill"
    ? await killRuns({ kills: many, seed: 7, progress: every(20) })
    : what === "fuzz"
      ? await fuzzRun(many, 20260310, every(1000))
      : what === "busy"
        ? await busyRun({ clients: 50, seconds: many })
        : what === "replan"
          ? await firstAnswers(many, 5)
          : await firstViews(many);
process.stdout.write(`${JSON.stringify({ ...figures, faults: figures.faults.slice(0, 20) }, null, 2)}\n`);
process.exit(figures.faults.length === 0 ? 0 : 1);
