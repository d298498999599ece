/**
 * Starts, hears and ends the process beside a search, for the second core: on small days it proves bounds, on larger ones
 * it searches from another seed, after a first bound or a while of proving, and best plans are shared. It can be killed at
 * any moment: no plan waits for it.
 */
import { fork } from "node:child_process";
import type { Sequence } from "../../solver/index.ts";
import type { FromBeside, ToBeside } from "./beside-messages.ts";

export interface Beside {
  /** The best bound so far; 0 before the first. */
  readonly bound: () => number;
  /** The latest better sequence from over there, once. */
  readonly offered: () => Sequence | undefined;
  /** Tells it of a better plan. */
  readonly know: (cost: number, sequence: Sequence) => void;
  /** Kills it. */
  readonly end: () => void;
}

/** Memory it may take, MB: a proof that needs more is none for a workshop's computer. */
const MOST_MB = 640;

/** `trouble` is told of a crash, once; what was found before it stays good. */
export function startBeside(task: Exclude<ToBeside, { type: "better" }>, trouble: (message: string) => void): Beside {
  let bound = 0;
  let offered: Sequence | undefined;
  let over = false;
  const child = fork(new URL("./beside-child.ts", import.meta.url), {
    execArgv: ["--import", "tsx", `--max-old-space-size=${MOST_MB}`],
    // It knows the request and nothing else.
    env: { PATH: process.env["PATH"], NODE_ENV: process.env["NODE_ENV"] },
    stdio: ["ignore", "ignore", "inherit", "ipc"],
    serialization: "advanced",
  });
  const end = (): void => {
    over = true;
    child.kill("SIGKILL");
  };
  const failed = (message: string): void => {
    if (over) return;
    end();
    trouble(`the process that ${WORK[task.type]} beside the search has failed: ${message}`);
  };
  child.on("message", (message: FromBeside) => {
    if (message.type === "bound") bound = Math.max(bound, message.total);
    else if (message.type === "better") offered = message.sequence;
    else if (message.type === "ended") end();
    else failed(message.message);
  });
  child.on("error", (error) => failed(error.message));
  child.on("exit", (code, signal) => failed(`it ended with ${signal ?? `code ${code}`}`));
  const send = (message: ToBeside): void => {
    if (!over && child.connected) child.send(message, () => undefined);
  };
  send(task);
  return {
    bound: () => bound,
    offered: () => {
      const latest = offered;
      offered = undefined;
      return latest;
    },
    know: (cost, sequence) => send({ type: "better", cost, sequence }),
    end,
  };
}

const WORK = { prove: "proves bounds", search: "searches" } as const;
