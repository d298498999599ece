/** What-if over HTTP: asked for, read while it is worked out, stopped. Nothing of it is saved. */
import { failureSchema } from "../contract/answers.ts";
import type { WhatIf } from "../contract/what-if.ts";
import { whatIfAskSchema, whatIfSchema } from "../contract/what-if.ts";
import { badInput, conflict, notFound } from "../http/failure.ts";
import type { App } from "../http/app-parts.ts";
import { route } from "../http/route.ts";
import type { Route } from "../http/route.ts";
import { currentPlan } from "../shop/current.ts";
import { dayOf, shopRows } from "../shop/day-rows.ts";
import { shopTime } from "../shop/instants.ts";
import { standAt } from "../shop/stand.ts";
import { variantOf } from "./variants.ts";
import type { Case } from "./asked.ts";

export function whatIfRoutes(): Route[] {
  return [askRoute, readRoute, stopRoute];
}

/** How long an asker waits before the answer goes out unfinished. */
const answerMs = 900;

const askRoute = route(
  {
    method: "post",
    path: "/what-ifs",
    tag: "what-ifs",
    summary: "Work variants of the rest of the day out beside the day as it stands; saves nothing",
    body: whatIfAskSchema,
    keyed: false,
    answers: { 202: whatIfSchema, 409: failureSchema, 422: failureSchema },
  },
  async ({ app, body }) => {
    const rows = await shopRows(app.store.db);
    const day = dayOf(rows);
    if (day === undefined) throw conflict("No shop is set up yet: put a day file first.");
    const time = shopTime(day);
    const now = body.now === undefined ? app.clock.now() : time.millis(body.now);
    if (!Number.isFinite(now))
      throw badInput(`The clock change skips or repeats ${body.now}: write it with its offset.`);
    const current = await currentPlan(app.store.db);
    const base = standAt(rows, current, now);
    if (!base.ok) throw conflict(base.why, base.problems);
    const { stand } = base;
    const cases = body.variants.map((variant): Case => {
      const varied = variantOf(rows, variant, stand.asOf, time);
      if (!varied.ok) return { variant, stand: null, problem: varied.why };
      const standing = standAt(varied.rows, current, now);
      return standing.ok
        ? { variant, stand: standing.stand, problem: null }
        : { variant, stand: null, problem: standing.why };
    });
    const id = app.whatIfs.begin(body, stand, [{ variant: null, stand, problem: null }, ...cases]);
    await app.whatIfs.finished(id, answerMs);
    return { status: 202, body: found(app, id), headers: { Location: `/what-ifs/${id}` } };
  },
);

function found(app: App, id: string): WhatIf {
  const whatIf = app.whatIfs.read(id);
  if (whatIf === undefined) throw notFound(`what-if ${id}: only the last few are kept`);
  return whatIf;
}

const readRoute = route(
  {
    method: "get",
    path: "/what-ifs/:id",
    tag: "what-ifs",
    summary: "A what-if as far as it is worked out",
    answers: { 200: whatIfSchema, 404: failureSchema },
  },
  async ({ app, params }) => ({ status: 200, body: found(app, params["id"] ?? "") }),
);

const stopRoute = route(
  {
    method: "delete",
    path: "/what-ifs/:id",
    tag: "what-ifs",
    summary: "Stop it; what is worked out stays",
    answers: { 200: whatIfSchema, 404: failureSchema },
  },
  async ({ app, params }) => {
    const { id } = found(app, params["id"] ?? "");
    app.whatIfs.stop(id);
    return { status: 200, body: found(app, id) };
  },
);
