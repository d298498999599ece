/** Rules 1, 7 and 8 along each piece: coats once and in order, sprayed when ready, in the oven after flash and before the wait ends. */
import type { Bake, PieceBakes } from "./bakes.ts";
import type { DayView } from "./day-view.ts";
import type { Fault, Report, Rule } from "./fault.ts";
import { tolerance } from "./fault.ts";
import type { PlanView, Task } from "./plan-view.ts";
import { isSprayed } from "./task-counts.ts";
import { pieceName } from "./words.ts";

export function checkChains(day: DayView, plan: PlanView, pieces: readonly PieceBakes[], report: Report): void {
  const prep = new Map(plan.prep.map((task) => [task.key, task]));
  const booth = new Map(plan.booth.map((task) => [`${task.key}/${task.coat ?? 0}`, task]));
  for (const one of pieces) {
    checkCoatsInOrder(one, report);
    const bench = prep.get(one.piece.key);
    const hasBake = one.bakes.some(({ load, pan }) => !load.isFact && pan.said.coat === one.piece.line.pan.nextCoat);
    if (bench !== undefined && hasBake)
      notBefore(
        day,
        { rule: "7 bench", path: `${bench.path}.from`, at: bench.from, what: "prep" },
        one,
        report,
      )(one.piece.line.readyMinute, 0);
    for (const bake of one.bakes) {
      if (bake.load.isFact) continue;
      const start = startOf(day, one, bake, bench);
      const spray = booth.get(`${one.piece.key}/${bake.pan.said.coat}`);
      if (isSprayed(one.piece.line, bake.pan.said.coat)) checkSprayed(day, one, { bake, start, spray }, report);
      else checkUnsprayed(day, one, { bake, start }, report);
    }
  }
  checkLeftOver(plan, pieces, report);
}

function checkCoatsInOrder({ piece, bakes }: PieceBakes, report: Report): void {
  const seen = new Map<number, Bake>();
  for (const bake of bakes) {
    const { coat } = bake.pan.said;
    const object = (message: string): void =>
      report({
        rule: "1 coats",
        path: `${bake.pan.path}.coat`,
        message: `${pieceName(piece.key)}: ${message}`,
        said: coat,
      });
    const before = seen.get(coat - 1);
    if (coat < piece.line.pan.nextCoat) object(`coat ${coat} is no longer due.`);
    else if (seen.has(coat)) object(`coat ${coat} is baked twice.`);
    else if (coat > piece.line.pan.nextCoat && !(before !== undefined && before.load.done <= bake.load.opens))
      object(`coat ${coat} is baked without coat ${coat - 1} before it.`);
    seen.set(coat, bake);
  }
}

/** When a coat may be begun. `isFree`: the minutes before it pass where nobody counts them, so it may as well be later. */
interface Start {
  readonly minute: number;
  readonly leewayMinutes: number;
  readonly isFree: boolean;
}

function startOf(day: DayView, { piece, bakes }: PieceBakes, bake: Bake, bench: Task | undefined): Start {
  const { pan, readyMinute } = piece.line;
  if (bake.pan.said.coat !== pan.nextCoat) {
    const before = bakes.find((other) => other.pan.said.coat === bake.pan.said.coat - 1);
    return {
      minute: before?.inspected ?? readyMinute,
      leewayMinutes: before?.leewayMinutes ?? 0,
      isFree: false,
    };
  }
  if (pan.sprayed || pan.prepMinutes === 0) return { minute: readyMinute, leewayMinutes: 0, isFree: false };
  if (day.day.prep.benches > 0)
    return { minute: bench?.to ?? readyMinute + pan.prepMinutes, leewayMinutes: 0, isFree: false };
  return { minute: Math.max(readyMinute, day.planFrom) + pan.prepMinutes, leewayMinutes: 0, isFree: true };
}

interface Check {
  readonly rule: Rule;
  readonly path: string;
  readonly at: number;
  readonly what: string;
}

type Limit = (limit: number, leewayMinutes: number) => void;

function notBefore(day: DayView, check: Check, one: PieceBakes, report: Report): Limit {
  return (limit, leeway) => {
    if (check.at >= limit - leeway - tolerance.exactMinutes) return;
    report(timeFault(day, check, one, limit, "not before"));
  };
}

function notAfter(day: DayView, check: Check, one: PieceBakes, report: Report): Limit {
  return (limit, leeway) => {
    if (check.at <= limit + leeway + tolerance.exactMinutes) return;
    report(timeFault(day, check, one, limit, "not after"));
  };
}

function timeFault(
  day: DayView,
  { rule, path, at, what }: Check,
  one: PieceBakes,
  limit: number,
  order: string,
): Fault {
  const said = day.clock.show(at);
  const found = day.clock.show(limit);
  return {
    rule,
    path,
    message: `${pieceName(one.piece.key)}: ${what} at ${said}, ${order} ${found} is allowed.`,
    said,
    found,
  };
}

/** Without sprayers to plan, the coat is sprayed as late as its flash allows. */
function checkSprayed(
  day: DayView,
  one: PieceBakes,
  { bake, start, spray }: { readonly bake: Bake; readonly start: Start; readonly spray: Task | undefined },
  report: Report,
): void {
  const { coat, load } = bake;
  const limited = day.day.booth.sprayers > 0;
  if (limited && spray === undefined) return;
  const earliest = Math.max(start.minute, day.planFrom) + coat.sprayMinutes;
  const ends = spray !== undefined && limited ? spray.to : Math.max(earliest, load.opens - coat.flashMinutes);
  if (spray !== undefined && limited) {
    const check: Check = { rule: "7 booth", path: `${spray.path}.from`, at: spray.from, what: "spraying starts" };
    notBefore(day, check, one, report)(start.minute, start.leewayMinutes);
  }
  const leeway = limited ? 0 : start.leewayMinutes;
  const opens: Check = { rule: "8 flash", path: `${load.path}.doorOpensAt`, at: load.opens, what: "the door opens" };
  notBefore(day, opens, one, report)(ends + coat.flashMinutes, leeway);
  if (coat.maxWaitMinutes === null) return;
  const closes: Check = { rule: "8 wait", path: `${load.path}.doorClosesAt`, at: load.closes, what: "the door closes" };
  notAfter(day, closes, one, report)(ends + coat.maxWaitMinutes, leeway);
}

function checkUnsprayed(
  day: DayView,
  one: PieceBakes,
  { bake, start }: { readonly bake: Bake; readonly start: Start },
  report: Report,
): void {
  const { coat, load } = bake;
  const opens: Check = { rule: "8 flash", path: `${load.path}.doorOpensAt`, at: load.opens, what: "the door opens" };
  notBefore(day, opens, one, report)(start.minute, start.leewayMinutes);
  if (coat.maxWaitMinutes === null) return;
  const ready = start.isFree ? Math.max(start.minute, load.opens) : start.minute;
  const closes: Check = { rule: "8 wait", path: `${load.path}.doorClosesAt`, at: load.closes, what: "the door closes" };
  notAfter(day, closes, one, report)(ready + coat.maxWaitMinutes, start.leewayMinutes);
}

/** The list holds exactly the pieces that are not finished, each once, with its first missing coat and a reason. */
function checkLeftOver(plan: PlanView, pieces: readonly PieceBakes[], report: Report): void {
  const firstMissing = new Map(pieces.map(({ piece, firstMissing: coat }) => [piece.key, coat]));
  const listed = new Set<string>();
  for (const [index, entry] of plan.file.leftOver.entries()) {
    const key = `${entry.id}#${entry.item}`;
    const path = `leftOver[${index}]`;
    const object = (message: string): void =>
      report({ rule: "1 left over", path, message: `${pieceName(key)} ${message}`, said: entry.coat });
    const coat = firstMissing.get(key);
    if (!firstMissing.has(key)) object("is no piece of this day.");
    else if (coat === undefined) object("is listed as left over, though every due coat is baked.");
    else if (coat !== entry.coat) object(`is left over from coat ${coat} on, not from coat ${entry.coat}.`);
    if (listed.has(key)) object("is listed as left over twice.");
    if (entry.reason.trim() === "") object("is left over without a reason.");
    listed.add(key);
  }
  for (const [key, coat] of firstMissing)
    if (coat !== undefined && !listed.has(key))
      report({
        rule: "1 left over",
        path: "leftOver",
        message: `${pieceName(key)} is not listed as left over, though coat ${coat} is baked by no load.`,
        found: coat,
      });
}
