/** Close of day: what it would record, closing it, and reading closed days years later. */
import { z } from "zod";
import { failureSchema } from "../contract/answers.ts";
import {
  closeAnswerSchema,
  closeDaySchema,
  closePreviewSchema,
  closedDaySchema,
  closedDayWithFilesSchema,
} from "../contract/closed-day.ts";
import { notFound } from "../http/failure.ts";
import { route } from "../http/route.ts";
import type { Route } from "../http/route.ts";
import { closeDay, closePreview, closedDay, closedDays } from "./close-day.ts";

export function closingRoutes(): Route[] {
  return [previewRoute, closeRoute, listClosedRoute, readClosedRoute];
}

const previewRoute = route(
  {
    method: "get",
    path: "/day/close",
    tag: "day",
    summary: "What closing the day now would record",
    answers: { 200: closePreviewSchema, 409: failureSchema },
  },
  async ({ app }) => ({ status: 200, body: await closePreview(app) }),
);

const closeRoute = route(
  {
    method: "post",
    path: "/day/close",
    tag: "day",
    summary: "Close the day: pans that are done leave it; it stays readable for ever with its plan and events",
    body: closeDaySchema,
    answers: { 201: closeAnswerSchema, 409: failureSchema },
  },
  async ({ app, body, commit }) => (await commit((change) => closeDay(app, change, body.who))).answer,
);

const listClosedRoute = route(
  {
    method: "get",
    path: "/days",
    tag: "day",
    summary: "Closed days",
    answers: { 200: z.object({ days: z.array(closedDaySchema) }) },
  },
  async ({ app }) => ({ status: 200, body: { days: await closedDays(app.store.db) } }),
);

const readClosedRoute = route(
  {
    method: "get",
    path: "/days/:id",
    tag: "day",
    summary: "A closed day with its day file, its plans and what they were planned from",
    answers: { 200: closedDayWithFilesSchema, 404: failureSchema },
  },
  async ({ app, params }) => {
    const found = await closedDay(app.store.db, params["id"] ?? "");
    if (found === undefined) throw notFound(`closed day ${params["id"]}`);
    return { status: 200, body: found };
  },
);
