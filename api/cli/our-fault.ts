/** A mistake of this program: what is needed to find it is saved, named, and asked for. Exit code 1. */
import { mkdtemp, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import type { Day } from "../contract/day.ts";
import { PlanFault } from "../planning/plan-fault.ts";
import { exitCode } from "./exit-code.ts";
import { systemWords, typedPath } from "./files.ts";

const MOST_FAULTS = 20;

/** `day`: what was being worked on, where that is known. */
export async function ourFault(error: unknown, err: (text: string) => void, day?: Day): Promise<number> {
  const fault = error instanceof PlanFault ? error : undefined;
  const said = error instanceof Error ? (error.stack ?? error.message) : String(error);
  err("This is a mistake of Ovenful, not of your files. No plan was written.\n");
  if (fault)
    for (const { rule, path, message } of fault.faults.slice(0, MOST_FAULTS))
      err(`  rule ${rule}, ${path}: ${message}\n`);
  else err(`${said}\n`);
  const documents = { day: fault?.day ?? day, plan: fault?.plan };
  const saved = await save({ ...documents, error: `${said}\n` });
  err(`Saved: ${saved}\nPlease report it together with what is saved there; look first whether it names customers.\n`);
  return exitCode.fault;
}

/** In the folder the command was typed in, else where temporary files go. Answers the folder, or why there is none. */
async function save({
  day,
  plan,
  error,
}: {
  readonly day: unknown;
  readonly plan: unknown;
  readonly error: string;
}): Promise<string> {
  let why = "";
  for (const place of [typedPath("."), tmpdir()]) {
    try {
      const folder = await mkdtemp(join(place, "ovenful-fault-"));
      if (day !== undefined) await writeFile(join(folder, "day.json"), `${JSON.stringify(day, null, 2)}\n`);
      if (plan !== undefined) await writeFile(join(folder, "plan.json"), `${JSON.stringify(plan, null, 2)}\n`);
      await writeFile(join(folder, "error.txt"), error);
      return folder;
    } catch (failed) {
      why = systemWords(failed);
    }
  }
  return `nothing (${why})`;
}
