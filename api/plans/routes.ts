/** Plans over HTTP: asked for, watched, stopped, accepted, replaced, quoted, printed. */
import { z } from "zod";
import { failureSchema, savedSchema } from "../contract/answers.ts";
import type { DayFile } from "../contract/day.ts";
import { acceptSchema, differenceSchema, searchSchema } from "../contract/searching.ts";
import { requestSchema } from "../contract/remaking.ts";
import type { SearchAnswer } from "../contract/searching.ts";
import { conflict } from "../http/failure.ts";
import type { App } from "../http/app-parts.ts";
import { etag, route } from "../http/route.ts";
import type { Route } from "../http/route.ts";
import { acceptPlan } from "./accept.ts";
import { handedOut } from "./handed-out.ts";
import { answerOf, courseText, fileOf, inForceId, planRow } from "./searches.ts";

const failures = { 409: failureSchema, 422: failureSchema } as const;

export function planRoutes(): Route[] {
  return [listRoute, readRoute, stopRoute, acceptRoute, requestRoute, differenceRoute];
}

const mostListed = 100;

const listRoute = route(
  {
    method: "get",
    path: "/plans",
    tag: "plans",
    summary: `The last ${mostListed} searches, newest first, without their plans`,
    answers: {
      200: z.object({
        plans: z.array(searchSchema.omit({ plan: true, difference: true, onHold: true, soFar: true, lostPins: true })),
      }),
    },
  },
  async ({ app }) => {
    const rows = await app.store.db
      .selectFrom("plan")
      .select(["id", "kind", "state", "made_at", "replaces", "accepted_at", "cost", "bound", "seconds", "faults"])
      .orderBy("made_at", "desc")
      .limit(mostListed)
      .execute();
    const inForce = await inForceId(app.store.db);
    const plans = rows.map((row) => ({
      id: row.id,
      kind: row.kind,
      state: row.state,
      madeAt: row.made_at,
      replaces: row.replaces,
      inForce: row.id === inForce,
      acceptedAt: row.accepted_at,
      // What is only quoted is counted with its promise, which is in the plan itself.
      cost: isQuote(row) ? null : row.cost,
      bestPossibleCost: isQuote(row) ? null : row.bound,
      seconds: row.seconds,
      problem: row.faults === null ? null : "The plan found did not pass the check.",
    }));
    return { status: 200, body: { plans } };
  },
);

const isQuote = (row: { readonly kind: string; readonly accepted_at: string | null }): boolean =>
  row.kind === "quote" && row.accepted_at === null;

const readRoute = route(
  {
    method: "get",
    path: "/plans/:id",
    tag: "plans",
    summary: "A search with the best plan so far; `in-force` for the plan in force",
    answers: { 200: searchSchema, 404: failureSchema },
  },
  async ({ app, params }) => {
    const answer = await answerOf(app, await planId(app, params["id"] ?? ""));
    return { status: 200, body: answer, headers: { ETag: etag(versionOf(answer)) } };
  },
);

export async function planId(app: App, asked: string): Promise<string> {
  return asked === "in-force" ? ((await inForceId(app.store.db)) ?? asked) : asked;
}

function versionOf({ id, state, cost, seconds, inForce }: SearchAnswer): string {
  return `${id}-${state.replace(" ", "-")}-${cost ?? "none"}-${seconds}-${inForce ? 1 : 0}`;
}

const stopRoute = route(
  {
    method: "delete",
    path: "/plans/:id",
    tag: "plans",
    summary: "Stop the search and keep the best plan it has",
    answers: { 200: searchSchema, 404: failureSchema },
  },
  async ({ app, params }) => {
    const { id } = await planRow(app.store.db, params["id"] ?? "");
    await app.planner.stop(id);
    return { status: 200, body: await answerOf(app, id) };
  },
);

const acceptRoute = route(
  {
    method: "post",
    path: "/plans/:id/accept",
    tag: "plans",
    summary: "Make it the plan in force; a quote's job is taken with it",
    body: acceptSchema,
    answers: { 200: savedSchema, 404: failureSchema, ...failures },
  },
  async ({ app, params, body, commit }) => {
    const id = params["id"] ?? "";
    const { state } = await planRow(app.store.db, id);
    if (state === "queued" || state === "searching") await app.planner.stop(id);
    return (await commit((change) => acceptPlan(app, change, id, body))).answer;
  },
);

const requestRoute = route(
  {
    method: "get",
    path: "/plans/:id/request",
    tag: "plans",
    summary: "What it was planned from: with the same day, seed, course and version the same plan comes out",
    answers: { 200: requestSchema, 404: failureSchema },
  },
  async ({ app, params }) => {
    const row = await planRow(app.store.db, await planId(app, params["id"] ?? ""));
    const { request, version } = row;
    const found = fileOf(row);
    const { day, wishes } =
      found === null ? { day: JSON.parse(row.day) as DayFile, wishes: {} } : handedOut(row, found);
    return {
      status: 200,
      body: { day, wishes, options: JSON.parse(request) as unknown, version, course: courseText(row) },
    };
  },
);

const differenceRoute = route(
  {
    method: "get",
    path: "/plans/:id/difference",
    tag: "plans",
    summary: "What it changes against the plan in force when it was asked for",
    answers: { 200: differenceSchema, 404: failureSchema, 409: failureSchema },
  },
  async ({ app, params }) => {
    const { difference } = await answerOf(app, await planId(app, params["id"] ?? ""));
    if (difference === null) throw conflict("There is no plan yet, or none in force to compare it with.");
    return { status: 200, body: difference };
  },
);
