/** Starts, hears and ends the process that proves bounds beside a search. It can be killed at any moment: no plan waits for it. */
import { fork } from "node:child_process";
import type { PlanRequest } from "../../solver/index.ts";
import type { FromProver, ToProver } from "./prover-messages.ts";

export interface Prover {
  /** The best bound so far; 0 before the first. */
  readonly bound: () => number;
  /** Tells it of a better plan. */
  readonly know: (cost: number) => void;
  /** Kills it. */
  readonly end: () => void;
}

/** Memory it may take, MB: a proof that needs more is none for a workshop's computer. */
const MOST_MB = 640;

/** `trouble` is told of a crash, once; the bounds found before it stay good. */
export function startProver(request: PlanRequest, cost: number, trouble: (message: string) => void): Prover {
  let bound = 0;
  let over = false;
  const child = fork(new URL("./prove-child.ts", import.meta.url), {
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
    trouble(`the proof of how good the plan is has failed: ${message}`);
  };
  child.on("message", (message: FromProver) => {
    if (message.type === "bound") bound = Math.max(bound, message.total);
    else if (message.type === "ended") end();
    else failed(message.message);
  });
  child.on("error", (error) => failed(error.message));
  child.on("exit", (code, signal) => failed(`its process ended with ${signal ?? `code ${code}`}`));
  const send = (message: ToProver): void => {
    if (!over && child.connected) child.send(message, () => undefined);
  };
  send({ type: "prove", request, cost });
  return { bound: () => bound, know: (better) => send({ type: "cost", cost: better }), end };
}
