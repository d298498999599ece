/** Searches over HTTP: a plan of the day, of the rest of it after what happened, with a job that is not taken yet. */
import type { z } from "zod";
import { failureSchema } from "../contract/answers.ts";
import type { DayFile } from "../contract/day.ts";
import {
  planAskSchema,
  quoteAnswerSchema,
  quoteAskSchema,
  replanAnswerSchema,
  replanAskSchema,
  searchSchema,
} from "../contract/searching.ts";
import type { App } from "../http/app-parts.ts";
import { writtenJson } from "../http/read-body.ts";
import { route } from "../http/route.ts";
import type { Answer, Route } from "../http/route.ts";
import { askPlan, askQuote, askReplan } from "./ask.ts";
import type { Replanned } from "./ask.ts";
import { handedOut } from "./handed-out.ts";
import { offerOf } from "./offer.ts";
import { quoteOf } from "./quote.ts";
import { answerOf, fileOf, inForceId, planRow, searchAnswer } from "./searches.ts";
import type { Extra } from "./searches.ts";

/** How long an asker waits for the first plan before the answer goes out without one. */
const firstPlanMs = 900;
const failures = { 409: failureSchema, 422: failureSchema } as const;

export function askRoutes(): Route[] {
  return [askRoute, replanRoute, quoteRoute, readQuoteRoute];
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
