/** `verify`: does a plan obey the rules of its day, and does it cost what it says? Whoever made it. */
import { checkPlan } from "../check/check-plan.ts";
import type { Fault } from "../check/fault.ts";
import { ArgumentError } from "./arguments.ts";
import type { Arguments } from "./arguments.ts";
import { readDayInput } from "./day-input.ts";
import { exitCode } from "./exit-code.ts";
import { plural, wrap } from "./lines.ts";
import { readPlanInput } from "./plan-input.ts";
import type { Terminal } from "./terminal.ts";

export async function runVerify(args: Arguments, io: Terminal): Promise<number> {
  const [dayPath = "", planPath = ""] = args.words;
  if (dayPath === "-" && planPath === "-") throw new ArgumentError("Only one of the two files can come from stdin.");
  const json = args.values["json"] === true;
  const day = await readDayInput(dayPath, io, json);
  const plan = await readPlanInput(planPath);
  const faults = checkPlan(day, plan);
  io.out(json ? `${JSON.stringify({ faults }, null, 2)}\n` : `${faultLines(faults).join("\n")}\n`);
  return faults.length === 0 ? exitCode.ok : exitCode.fault;
}

function faultLines(faults: readonly Fault[]): string[] {
  if (faults.length === 0) return ["The plan is sound: it keeps every rule and costs what it says."];
  return [
    `The plan is not sound: ${plural(faults.length, "fault")}.`,
    ...faults.flatMap(({ rule, path, message }) => wrap(`rule ${rule}, ${path}: ${message}`, "  ", "      ")),
  ];
}
