/**
 * Holds every plan that comes in an answer, wherever it stands in it, against the day it was made for, by the independent
 * checker. Throws where the checker objects, and where a plan comes whose day cannot be told: no plan passes unseen.
 */
import { checkPlan } from "../../api/check/check-plan.ts";
import type { Day, DayFile } from "../../api/contract/day.ts";
import type { PlanFile } from "../../api/contract/plan.ts";
import { readDay } from "../../api/day/read-day.ts";

export interface Auditor {
  /** `text`: the body as it came; `path`: as asked, with the id where events are watched. */
  readonly audit: (path: string, contentType: string, text: string) => Promise<void>;
  /** Plans audited so far, each once. */
  readonly count: () => number;
}

interface Request {
  readonly day: DayFile;
  readonly wishes: Readonly<Record<string, string>>;
}

interface Found {
  readonly plan: PlanFile;
  /** Of its search. */
  readonly id: string | undefined;
  /** Told beside it. */
  readonly request: Request | undefined;
  /** What the answer says of it. */
  readonly told: Readonly<Record<string, unknown>>;
}

/** `read` answers what a search was planned from: /plans/{id}/request. */
export function auditor(read: (id: string) => Promise<unknown>): Auditor {
  const seen = new Set<string>();
  return {
    count: () => seen.size,
    audit: async (path, contentType, text) => {
      const watched = /^\/plans\/(p-\w+)\/events/.exec(path)?.[1];
      for (const found of bodiesIn(contentType, text).flatMap((body) => plansIn(body, watched))) {
        const key = `${found.id} ${JSON.stringify(found.plan)}`;
        if (seen.has(key)) continue;
        seen.add(key);
        if (found.id === undefined) throw new Error(`${path} hands out a plan that has no search`);
        const request = found.request ?? ((await read(found.id)) as Request);
        hold(`${path}, plan ${found.id}`, found, dayOf(request, found.plan));
      }
    },
  };
}

function bodiesIn(contentType: string, text: string): unknown[] {
  if (contentType.includes("event-stream"))
    return [...text.matchAll(/^data: (.*)$/gm)].map(([, json]) => JSON.parse(json ?? "") as unknown);
  return contentType.includes("json") && text.includes('"loads"') ? [JSON.parse(text) as unknown] : [];
}

function plansIn(body: unknown, id: string | undefined, request?: Request, told: Found["told"] = {}): Found[] {
  if (typeof body !== "object" || body === null) return [];
  if (Array.isArray(body)) return body.flatMap((one) => plansIn(one, id, request, told));
  const parts = body as Record<string, unknown>;
  if ("formatVersion" in parts && "search" in parts && Array.isArray(parts["loads"]))
    return [{ plan: parts as unknown as PlanFile, id, request, told }];
  // A closed day names the plan in force, whose file stands beside it.
  const names = [parts["id"], parts["plan"]].filter((name) => typeof name === "string" && name.startsWith("p-"));
  const own = (names[0] as string | undefined) ?? id;
  const kept = "planFile" in parts && "wishes" in parts && "options" in parts;
  const beside = kept ? (parts as unknown as Request) : undefined;
  return Object.values(parts).flatMap((part) => plansIn(part, own, beside, parts));
}

/** A quote's promise is made anew with each better plan, so the job's is the plan's own; all other promises are the day's. */
function dayOf({ day, wishes }: Request, plan: PlanFile): DayFile {
  const promises = new Map(plan.tickets.map(({ ticket, promisedAt }) => [ticket, promisedAt]));
  const pans = day.pans.map((pan) =>
    pan.id in wishes ? { ...pan, promisedAt: promises.get(pan.ticket ?? pan.id) ?? null } : pan,
  );
  return { ...day, pans };
}

function hold(where: string, { plan, told }: Found, file: DayFile): void {
  const read = readDay(file);
  if (!read.ok) throw new Error(`${where}: its day is not sound: ${JSON.stringify(read.problems.slice(0, 3))}`);
  // The habits beside a plan take long to fire afresh: they are, for every plan that a search ends with.
  const isOnTheWay = told["state"] === "searching" || !("state" in told || "planFile" in told);
  const faults = checkPlan(read.day as Day, plan, { savings: !isOnTheWay });
  if (faults.length > 0) throw new Error(`${where}: ${faults.map(({ message }) => message).join("; ")}`);
  const figures = { cost: plan.cost.total, bestPossibleCost: plan.search.bestPossibleCost };
  for (const [name, figure] of Object.entries(figures))
    if (told["plan"] === plan && name in told && told[name] !== figure)
      throw new Error(`${where}: ${name} is told as ${String(told[name])} and is ${figure}`);
}
