/** `plan`: reads a day, searches, and hands the plan out as text, as JSON, into a file. */
import { wallClock } from "../clock.ts";
import type { Day } from "../contract/day.ts";
import type { PlanFile } from "../contract/plan.ts";
import { planDay } from "../planning/plan-day.ts";
import type { Found } from "../planning/plan-day.ts";
import { numberOption, textOption } from "./arguments.ts";
import type { Arguments } from "./arguments.ts";
import { readDayInput } from "./day-input.ts";
import { exitCode } from "./exit-code.ts";
import { checkWritable, writeAtomically } from "./files.ts";
import { money } from "./lines.ts";
import { BadInput } from "./bad-input.ts";
import { stopSignals } from "./stop-signals.ts";
import type { Terminal } from "./terminal.ts";

const DEFAULT_SECONDS = 10;
const A_DAY_IN_SECONDS = 86_400;

interface PlanWishes {
  readonly input: string;
  readonly out: string | undefined;
  readonly json: boolean;
  readonly seconds: number | null;
  readonly steps: number | null;
  readonly seed: number;
  readonly gapPercent: number;
}

export async function runPlan(args: Arguments, io: Terminal): Promise<number> {
  const wishes = readWishes(args);
  if (wishes.out !== undefined) await checkWritable(wishes.out, wishes.input);
  const day = await readDayInput(wishes.input, io, wishes.json);
  const signals = stopSignals(() => {
    if (!wishes.json) io.err("\nStopping with the best plan so far. Again to quit at once.\n");
  });
  try {
    const options = {
      ...wishes,
      clock: wallClock,
      secondsNow,
      stopped: signals.stopped,
      found: foundTo(io, wishes.json, day.currency),
      trouble: (message: string) => io.err(`${message}\n`),
    };
    const { plan } = await planDay(day, options);
    if (wishes.out !== undefined) await writeAtomically(wishes.out, asJson(plan));
    io.out(wishes.json ? asJson(plan) : await asText(day, plan, io));
    return nothingPlanned(day, plan) ? exitCode.noPlan : exitCode.ok;
  } catch (error) {
    if (error instanceof BadInput) throw error;
    const { ourFault } = await import("./our-fault.ts");
    return await ourFault(error, io.err, day);
  } finally {
    signals.release();
  }
}

function readWishes(args: Arguments): PlanWishes {
  const most = Number.MAX_SAFE_INTEGER;
  const steps = numberOption(args, "steps", { least: 0, most, whole: true }) ?? null;
  const seconds = numberOption(args, "seconds", { least: 0, most: A_DAY_IN_SECONDS });
  return {
    input: args.words[0] ?? "",
    out: textOption(args, "out"),
    json: args.values["json"] === true,
    steps,
    seconds: seconds ?? (steps === null ? DEFAULT_SECONDS : null),
    seed: numberOption(args, "seed", { least: 0, most: 0xffff_ffff, whole: true }) ?? 1,
    gapPercent: numberOption(args, "gap", { least: 0, most: 100 }) ?? 0.1,
  };
}

/** Since the process started: what somebody at the keyboard has waited. */
function secondsNow(): number {
  return performance.now() / 1000;
}

function foundTo({ err, errIsTerminal, errPaint }: Terminal, json: boolean, currency: string): (found: Found) => void {
  return ({ cost, bound }) => {
    const seconds = Number(secondsNow().toFixed(2));
    if (json) err(`${JSON.stringify({ event: "plan", seconds, cost: rounded(cost), bound: rounded(bound) })}\n`);
    else if (errIsTerminal) err(`${errPaint.quiet(`${seconds.toFixed(1)} s: a plan for ${money(cost, currency)}`)}\n`);
  };
}

function rounded(amount: number): number {
  return Number(amount.toFixed(4));
}

async function asText(day: Day, plan: PlanFile, { paint }: Terminal): Promise<string> {
  const { printPlan } = await import("./print-plan.ts");
  return `${printPlan(day, plan, paint).join("\n")}\n`;
}

function asJson(plan: PlanFile): string {
  return `${JSON.stringify(plan, null, 2)}\n`;
}

/** There are pans, and not one firing for any of them. */
function nothingPlanned(day: Day, plan: PlanFile): boolean {
  const pieces = day.pans.reduce((sum, { quantity }) => sum + quantity, 0);
  const planned = plan.loads.some(({ state, pans }) => state === "planned" && pans.length > 0);
  return pieces > 0 && !planned && plan.leftOver.length >= pieces;
}
