/** Runs spread over child processes, each with a core of its own where there are as many. */
import { fork } from "node:child_process";
import type { ChildProcess } from "node:child_process";
import { fileURLToPath } from "node:url";
import { gatherInstances } from "./instances.ts";
import { runOnce } from "./run.ts";
import type { Run, RunWish } from "./run.ts";

export interface Task {
  readonly set: string;
  readonly name: string;
  readonly folder: string;
  readonly wish: RunWish;
}

const CHILD = "--child";

export function isChild(args: readonly string[]): boolean {
  return args[0] === CHILD;
}

export function serveTasks(): void {
  process.on("message", (task: Task) => {
    void runTask(task).then((run) => process.send?.(run));
  });
}

async function runTask({ set, name, folder, wish }: Task): Promise<Run> {
  const instance = gatherInstances([set], name, folder).find((one) => one.name === name);
  if (instance === undefined) throw new Error(`there is no instance ${name}`);
  return runOnce(instance, wish);
}

/** The runs in the order of the tasks; `onRun` hears of each as it ends. */
export async function runAll(tasks: readonly Task[], jobs: number, onRun: (run: Run) => void): Promise<Run[]> {
  const runs: Run[] = [];
  let next = 0;
  const work = async (run: (task: Task) => Promise<Run>): Promise<void> => {
    for (let i = next++; i < tasks.length; i = next++) {
      const task = tasks[i];
      if (task === undefined) return;
      const done = await run(task);
      runs[i] = done;
      onRun(done);
    }
  };
  if (jobs === 1) await work(runTask);
  else await Promise.all(Array.from({ length: jobs }, () => withChild(work)));
  return runs;
}

async function withChild(work: (run: (task: Task) => Promise<Run>) => Promise<void>): Promise<void> {
  const bench = fileURLToPath(new URL("./bench.ts", import.meta.url));
  const child = fork(bench, [CHILD], { execArgv: ["--import", "tsx"] });
  try {
    await work((task) => ask(child, task));
  } finally {
    child.kill();
  }
}

function ask(child: ChildProcess, task: Task): Promise<Run> {
  return new Promise((resolve, reject) => {
    const ended = (code: number | null): void => reject(new Error(`the run of ${task.name} ended with ${code}`));
    child.once("exit", ended);
    child.once("message", (run: Run) => {
      child.off("exit", ended);
      resolve(run);
    });
    child.send(task);
  });
}
