/** Asks the service. Failures become errors that carry what the service said. */
import type { Failure } from "../../api/contract/answers.ts";
import type { DayFile } from "../../api/contract/day.ts";
import type { SearchAnswer } from "../../api/contract/searching.ts";
import { signed, signedPath } from "./who.ts";
import { words } from "./words-en.ts";

export class Refused extends Error {
  readonly status: number;
  /** Everything wrong with what was sent, each with its path; empty where the service names none. */
  readonly problems: NonNullable<Failure["problems"]>;
  constructor(status: number, message: string, problems: NonNullable<Failure["problems"]> = []) {
    super(message);
    this.status = status;
    this.problems = problems;
  }
}

/** `headers`: as If-Match, where two people may edit the same. */
export function ask<T>(method: string, path: string, body?: unknown, headers: object = {}): Promise<T> {
  if (body === undefined) return request(path, { method, headers: { ...headers } });
  return request(path, {
    method,
    body: JSON.stringify(body),
    headers: { "Content-Type": "application/json", ...headers },
  });
}

let keptSince: string | null = null;

/** When the last answer was kept, where the service itself gave none; null: it answered. */
export function answerKeptAt(): string | null {
  return keptSince;
}

async function request<T>(path: string, sent: RequestInit): Promise<T> {
  const response = await fetch(path, sent).catch(() => {
    throw new Error(words.shell.noAnswer);
  });
  keptSince = response.headers.get("Ovenful-Kept-At");
  if (!response.ok) {
    const failure = (await response.json()) as Failure;
    throw new Refused(response.status, saidBy(failure), failure.problems);
  }
  return (response.status === 204 ? undefined : await response.json()) as T;
}

function saidBy(failure: Failure): string {
  const problems = new Set((failure.problems ?? []).map((problem) => ` ${problem.message}`));
  return `${failure.title}: ${failure.detail}${[...problems].join("")}`;
}

interface Listed {
  readonly id: string;
  readonly kind: string;
  readonly state: string;
  readonly inForce: boolean;
  readonly madeAt: string;
  readonly cost: number | null;
}

/** The search that the page shows: under way, else made after the plan in force and not taken yet, else in force. */
export async function shownSearch(dismissed: string): Promise<string | null> {
  const { plans } = await ask<{ plans: Listed[] }>("GET", "/plans");
  const searches = plans.filter(({ kind }) => kind === "plan" || kind === "replan");
  const running = searches.find(({ state }) => state === "searching" || state === "queued");
  const inForce = plans.find((one) => one.inForce);
  const since = inForce === undefined ? -Infinity : Date.parse(inForce.madeAt);
  const newer = searches.find(({ cost, madeAt }) => cost !== null && Date.parse(madeAt) > since);
  const waits = newer === undefined || newer.id === dismissed ? undefined : newer;
  return (running ?? waits ?? inForce ?? searches[0])?.id ?? null;
}

const at = (id: string): string => `/plans/${encodeURIComponent(id)}`;

export const readSearch = (id: string): Promise<SearchAnswer> => ask("GET", at(id));
export const readRequest = (id: string): Promise<{ day: DayFile }> => ask("GET", `${at(id)}/request`);
export const stopSearch = (id: string): Promise<SearchAnswer> => ask("DELETE", at(id));
/** `offer`: of a quote, the one that was seen; refused with 409 where a better one has come since. */
export const acceptSearch = (id: string, offer: string | null = null): Promise<unknown> =>
  ask("POST", `${at(id)}/accept`, signed(offer === null ? {} : { offer }));
export const startSearch = (from: "day" | "now"): Promise<SearchAnswer> => ask("POST", "/plans", { from });
export const readDay = (): Promise<DayFile> => ask("GET", "/day");
export const enter = (token: string): Promise<void> => ask("POST", "/session", { token });

export type WaitingPan = DayFile["pans"][number];
/** A line of the list of pans. */
export interface ListedPan {
  readonly pan: WaitingPan;
  readonly state: string;
  readonly note: string;
}
export const readPans = (): Promise<{ pans: ListedPan[] }> => ask("GET", "/pans");
/** A table of pans as CSV. */
export const importPans = (csv: string): Promise<{ added: number }> =>
  request(signedPath("/pans.csv"), { method: "POST", body: csv, headers: { "Content-Type": "text/csv" } });
export const addPan = (pan: WaitingPan): Promise<unknown> => ask("POST", "/pans", signed({ pan }));

export function watchSearch(id: string, tell: (search: Partial<SearchAnswer>) => void): () => void {
  const source = new EventSource(`${at(id)}/events`);
  source.addEventListener("better", ({ data }: MessageEvent<string>) => {
    const { cost, bound, seconds, plan } = JSON.parse(data) as Pick<SearchAnswer, "cost" | "seconds" | "plan"> & {
      bound: number;
    };
    tell({ cost, bestPossibleCost: bound, seconds, plan });
  });
  source.addEventListener("ended", ({ data }: MessageEvent<string>) => {
    source.close();
    tell(JSON.parse(data) as SearchAnswer);
  });
  return () => source.close();
}

/** What a form's field holds as text; empty where it has none. */
export function fieldText(form: FormData, field: string): string {
  const value = form.get(field);
  return typeof value === "string" ? value : "";
}

export function saidOf(trouble: unknown): string {
  return trouble instanceof Error ? trouble.message : JSON.stringify(trouble);
}
