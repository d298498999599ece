/** The real server in a process of its own, started as `npm start` does or straight from its main file. */
import { execFileSync, spawn } from "node:child_process";
import type { ChildProcess } from "node:child_process";
import { fileURLToPath } from "node:url";

export interface Server {
  readonly process: ChildProcess;
  readonly address: string;
}

const root = fileURLToPath(new URL("../../", import.meta.url));

/** Rejects with what it said where it does not come up. */
export function server(file: string, by: "node" | "npm start" = "node"): Promise<Server> {
  const [command, args] =
    by === "node"
      ? [process.execPath, ["--import", "tsx", "api/main.ts"]]
      : // The page is built by other tests; only the start itself is of interest here.
        ["npm", ["start", "--ignore-scripts"]];
  const child = spawn(command, args, {
    cwd: root,
    env: { ...process.env, OVENFUL_DB: file, OVENFUL_PORT: "0", OVENFUL_HOST: "127.0.0.1", OVENFUL_LOG: "silent" },
    stdio: ["ignore", "pipe", "pipe"],
    // A process group of its own, as a terminal gives it one: Ctrl-C goes to all of them.
    detached: by === "npm start",
  });
  return new Promise((resolve, reject) => {
    let said = "";
    child.stdout.on("data", (part: Buffer) => {
      said += part.toString();
      const address = /is at (\S+) and/.exec(said)?.[1];
      if (address !== undefined) resolve({ process: child, address });
    });
    let complained = "";
    child.stderr.on("data", (part: Buffer) => (complained += part.toString()));
    child.on("exit", () => reject(new Error(complained)));
  });
}

export function ended(child: ChildProcess): Promise<number | null> {
  return new Promise((resolve) =>
    child.exitCode !== null || child.signalCode !== null ? resolve(child.exitCode) : child.on("exit", resolve),
  );
}

/** Ids of the processes that this one started, theirs, and so on. */
export function descendants(pid: number): number[] {
  const rows = execFileSync("ps", ["-e", "-o", "pid=,ppid="], { encoding: "utf8" })
    .trim()
    .split("\n")
    .map((line) => line.trim().split(/\s+/).map(Number));
  const found: number[] = [];
  const collect = (parent: number): void => {
    for (const [child = 0, of = 0] of rows)
      if (of === parent && !found.includes(child)) {
        found.push(child);
        collect(child);
      }
  };
  collect(pid);
  return found;
}

export function isAlive(pid: number): boolean {
  try {
    process.kill(pid, 0);
    return true;
  } catch {
    return false;
  }
}
