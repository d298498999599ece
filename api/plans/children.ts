/** Child processes that search: one warm and waiting, so that the first plan of a search comes within a second. */
import { fork } from "node:child_process";
import type { ChildProcess } from "node:child_process";
import { constants, setPriority } from "node:os";
import type { FromChild, ToChild } from "./messages.ts";

export interface Child {
  readonly send: (message: ToChild) => void;
  /** Replaces the listener. `undefined`: the process has ended. */
  readonly listen: (heard: (message: FromChild | undefined) => void) => void;
  readonly kill: () => void;
}

export interface Children {
  readonly take: () => Child;
  /** Gives a child that has ended its search back, to wait for the next. */
  readonly giveBack: (child: Child) => void;
  readonly endAll: () => void;
}

export function children(): Children {
  const all = new Set<Child>();
  let waiting: Child | undefined;
  const born = (): Child => {
    const child = newChild(() => {
      all.delete(child);
      if (waiting === child) waiting = undefined;
    });
    all.add(child);
    return child;
  };
  waiting = born();
  return {
    take: () => {
      const child = waiting ?? born();
      waiting = undefined;
      return child;
    },
    giveBack: (child) => {
      if (!all.has(child)) return;
      child.listen(() => undefined);
      if (waiting === undefined) waiting = child;
      else child.kill();
    },
    endAll: () => {
      for (const child of all) child.kill();
    },
  };
}

function newChild(gone: () => void): Child {
  const process_: ChildProcess = fork(new URL("./solve-child.ts", import.meta.url), {
    execArgv: ["--import", "tsx"],
    // A search knows the day and nothing else: no token, no path of the file.
    env: { PATH: process.env["PATH"], NODE_ENV: process.env["NODE_ENV"] },
    stdio: ["ignore", "ignore", "inherit", "ipc"],
    serialization: "json",
  });
  yieldToReaders(process_.pid);
  let heard: (message: FromChild | undefined) => void = () => undefined;
  let ended = false;
  const end = (): void => {
    if (ended) return;
    ended = true;
    gone();
    heard(undefined);
  };
  process_.on("message", (message) => heard(message as FromChild));
  process_.on("exit", end);
  process_.on("error", end);
  return {
    send: (message) => {
      if (process_.connected) process_.send(message);
    },
    listen: (listener) => {
      heard = listener;
      if (ended) listener(undefined);
    },
    kill: () => process_.kill("SIGKILL"),
  };
}

/** Whoever reads a screen comes before a search that runs for its own sake. */
function yieldToReaders(pid: number | undefined): void {
  try {
    if (pid !== undefined) setPriority(pid, constants.priority.PRIORITY_BELOW_NORMAL);
  } catch {
    // A system that forbids it only makes readers wait a little.
  }
}
