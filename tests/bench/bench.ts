/** The benchmark: `npm run bench -- --help`. Protocol in DEVELOPERS.md. */
import { writeFileSync } from "node:fs";
import { gatherInstances } from "./instances.ts";
import type { Instance } from "./instances.ts";
import { isChild, runAll, serveTasks } from "./processes.ts";
import { bestKnownOf, budgetWords, compareBaseline, keepBaseline, keepBest, readBestDays } from "./records.ts";
import type { Run } from "./run.ts";
import { summarise } from "./summary.ts";
import type { Line } from "./summary.ts";
import { figure, setsTable, tableOf } from "./table.ts";
import { helpText, readWish } from "./wish.ts";
import type { BenchWish } from "./wish.ts";

const args = process.argv.slice(2);
if (isChild(args)) serveTasks();
else {
  process.exitCode = await main(args).catch((error: unknown) => {
    console.error(error instanceof Error ? error.message : error);
    return 2;
  });
}

async function main(words: readonly string[]): Promise<number> {
  const wish = readWish(words);
  if (wish === undefined) {
    console.log(helpText);
    return 0;
  }
  const instances = gatherInstances(wish.sets, wish.only, wish.data);
  console.log(`${instances.length} instances, ${wish.seeds} seed(s), ${budgetWords(wish.budget)} each`);
  const runs = await measure(instances, wish);
  const lines = linesOf(instances, runs, wish);
  console.log(`\n${tableOf(lines)}\n\n${setsTable(lines)}\n`);
  for (const sentence of compareBaseline(lines, wish)) console.log(sentence);
  if (wish.json !== null) writeFileSync(wish.json, `${JSON.stringify({ wish, lines, runs }, null, 1)}\n`);
  if (wish.keep) console.log(`better than ever: ${keepBest(instances, lines, wish.budget).join(", ") || "none"}`);
  if (wish.baseline) keepBaseline(lines, wish);
  const faults = lines.flatMap(({ name, engine, faults: own }) => own.map((fault) => `${name} (${engine}): ${fault}`));
  for (const fault of faults) console.error(`FAULT ${fault}`);
  return faults.length > 0 ? 1 : 0;
}

async function measure(instances: readonly Instance[], wish: BenchWish): Promise<Run[]> {
  const tasks = instances.flatMap(({ set, name }) =>
    wish.engines.flatMap((engine) =>
      Array.from({ length: wish.seeds }, (_, i) => ({
        set,
        name,
        folder: wish.data,
        wish: { engine, seed: i + 1, budget: wish.budget },
      })),
    ),
  );
  return runAll(tasks, wish.jobs, ({ name, engine, seed, value, bound, seconds, faults }) => {
    const fault = faults.length > 0 ? `  FAULT ${faults[0]}` : "";
    console.log(
      `${name} ${engine} seed ${seed}: ${figure(value, 2)} (bound ${figure(bound, 2)}) in ${figure(seconds, 1)} s${fault}`,
    );
  });
}

function linesOf(instances: readonly Instance[], runs: readonly Run[], wish: BenchWish): Line[] {
  const best = readBestDays();
  return instances.flatMap((instance) =>
    wish.engines.map((engine) => {
      const own = runs.filter((run) => run.set === instance.set && run.name === instance.name && run.engine === engine);
      return summarise(instance, bestKnownOf(instance, best), own);
    }),
  );
}
