/** Plans over HTTP: asked for, watched, stopped, accepted, replaced, quoted, printed. */
import { z } from "zod";
import { failureSchema, savedSchema } from "../contract/answers.ts";
import type { DayFile } from "../contract/day.ts";
import {
  acceptSchema,
  differenceSchema,
  planAskSchema,
  quoteAnswerSchema,
  quoteAskSchema,
  replanAnswerSchema,
  replanAskSchema,
  requestSchema,
  searchSchema,
} from "../contract/searching.ts";
import type { SearchAnswer } from "../contract/searching.ts";
import { conflict } from "../http/failure.ts";
import type { App } from "../http/app-parts.ts";
import { writtenJson } from "../http/read-body.ts";
import { etag, route } from "../http/route.ts";
import type { Answer, Route } from "../http/route.ts";
import { acceptPlan } from "./accept.ts";
import { askPlan, askQuote, askReplan } from "./ask.ts";
import type { Replanned } from "./ask.ts";
import { handedOut } from "./handed-out.ts";
import { offerOf } from "./offer.ts";
import { quoteOf } from "./quote.ts";
import { answerOf, courseText, fileOf, inForceId, planRow, searchAnswer } from "./searches.ts";
import type { Extra } from "./searches.ts";

/** How long an asker waits for the first plan before the answer goes out without one. */
const firstPlanMs = 900;
const failures = { 409: failureSchema, 422: failureSchema } as const;

export function planRoutes(): Route[] {
  return [
    askRoute,
    listRoute,
    readRoute,
    stopRoute,
    acceptRoute,
    requestRoute,
    differenceRoute,
    replanRoute,
    quoteRoute,
    readQuoteRoute,
  ];
}

const askRoute = route(
  {
    method: "post",
    path: "/plans",
    tag: "plans",
    summary: "Plan: starts a search and answers with its address",
    body: planAskSchema,
    answers: { 202: searchSchema, ...failures },
  },
  async ({ app, body, commit }) => {
    const { answer, replayed } = await commit(async (change) => ({
      status: 202,
      body: { id: await askPlan(app, change, body) },
    }));
    return started(app, (answer.body as { id: string }).id, replayed);
  },
);

async function started(app: App, id: string, replayed: boolean, more: object = {}): Promise<Answer> {
  if (!replayed) app.planner.start(id);
  await app.planner.firstPlan(id, firstPlanMs);
  return { status: 202, body: { ...(await answerOf(app, id)), ...more }, headers: { Location: `/plans/${id}` } };
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

const replanRoute = route(
  {
    method: "post",
    path: "/replans",
    tag: "plans",
    summary: "Report what happened and plan the rest anew: a first plan at once, better ones after",
    body: replanAskSchema,
    answers: { 202: replanAnswerSchema, 404: failureSchema, ...failures },
  },
  async ({ app, body, commit }) => {
    const { answer, replayed } = await commit(async (change) => ({
      status: 202,
      body: await askReplan(app, change, body),
    }));
    const { id, recorded, interrupted, notes } = answer.body as Replanned;
    return started(app, id, replayed, { recorded, interrupted, notes });
  },
);

const quoteRoute = route(
  {
    method: "post",
    path: "/quotes",
    tag: "quotes",
    summary: "What a rush job would do to the day; nothing is taken until the quote is accepted as a plan",
    body: quoteAskSchema,
    answers: { 202: quoteAnswerSchema, ...failures },
  },
  async ({ app, body, commit }, request) => {
    const written = writtenJson(request)["pans"] as DayFile["pans"];
    const { answer, replayed } = await commit(async (change) => ({
      status: 202,
      body: { id: await askQuote(app, change, body, written) },
    }));
    const { id } = answer.body as { id: string };
    if (!replayed) app.planner.start(id);
    await app.planner.firstPlan(id, firstPlanMs);
    return { status: 202, body: await quoteAnswer(app, id), headers: { Location: `/quotes/${id}` } };
  },
);

const readQuoteRoute = route(
  {
    method: "get",
    path: "/quotes/:id",
    tag: "quotes",
    summary: "A quote with the best plan so far; accept it at /plans/{id}/accept",
    answers: { 200: quoteAnswerSchema, 404: failureSchema },
  },
  async ({ app, params }) => ({ status: 200, body: await quoteAnswer(app, params["id"] ?? "") }),
);

async function quoteAnswer(app: App, id: string): Promise<z.output<typeof quoteAnswerSchema>> {
  const row = await planRow(app.store.db, id);
  const answer = searchAnswer(row, await inForceId(app.store.db));
  const found = fileOf(row);
  if (found === null) return { ...answer, quote: null, offer: null };
  const { day, plan } = handedOut(row, found);
  const quote = quoteOf(day, plan, JSON.parse(row.extra) as Extra, answer.difference);
  return { ...answer, quote, offer: offerOf(plan) };
}
