/** The log of what happened: read, added to, undone by a further event. */
import { z } from "zod";
import { failureSchema } from "../contract/answers.ts";
import { happenedSchema, loggedSchema } from "../contract/happened.ts";
import { interruptionSchema } from "../contract/searching.ts";
import { conflict, notFound } from "../http/failure.ts";
import { route } from "../http/route.ts";
import type { Route } from "../http/route.ts";
import { record, soundDay } from "../shop/edit.ts";
import { restore } from "../store/change.ts";
import type { Image } from "../store/change.ts";
import { applyHappened } from "./apply.ts";

const appliedSchema = z.object({
  event: z.int().positive(),
  interrupted: z.array(interruptionSchema),
  notes: z.array(z.string()),
});

export function eventRoutes(): Route[] {
  return [listRoute, addRoute, undoRoute];
}

const mostListed = 1000;

const listRoute = route(
  {
    method: "get",
    path: "/events",
    tag: "events",
    summary: `What happened, oldest first, up to ${mostListed} at a time`,
    query: { after: "only events with a higher number" },
    answers: { 200: z.object({ events: z.array(loggedSchema) }) },
  },
  async ({ app, query }) => {
    const after = Number(query["after"] ?? 0);
    const rows = await app.store.db
      .selectFrom("event")
      .select(["id", "at", "who", "kind", "subject", "body", "undoes"])
      .where("id", ">", Number.isSafeInteger(after) ? after : 0)
      .orderBy("id")
      .limit(mostListed)
      .execute();
    return { status: 200, body: { events: rows.map((row) => ({ ...row, body: JSON.parse(row.body) as unknown })) } };
  },
);

const addRoute = route(
  {
    method: "post",
    path: "/events",
    tag: "events",
    summary: "Report what happened, without planning anew",
    body: happenedSchema,
    answers: { 201: appliedSchema, 404: failureSchema, 409: failureSchema, 422: failureSchema },
  },
  async ({ app, body, commit }) => {
    const work = await commit(async (change) => ({
      status: 201,
      body: await applyHappened(app, change, body, app.clock.now()),
    }));
    return work.answer;
  },
);

const undoRoute = route(
  {
    method: "post",
    path: "/events/:id/undo",
    tag: "events",
    summary: "Undo an event by a further one that puts everything back as it was",
    body: z.strictObject({ who: z.string().trim().max(60).default("") }),
    answers: {
      201: z.object({ event: z.int().positive() }),
      404: failureSchema,
      409: failureSchema,
      422: failureSchema,
    },
  },
  async ({ app, params, body, commit }) => {
    const work = await commit(async (change) => {
      const id = Number(params["id"]);
      const known = Number.isSafeInteger(id) && id > 0;
      const [row] = known ? await change.trx.selectFrom("event").selectAll().where("id", "=", id).execute() : [];
      if (row === undefined) throw notFound(`event ${params["id"]}`);
      const [undone] = await change.trx.selectFrom("event").select("id").where("undoes", "=", id).execute();
      if (undone !== undefined) throw conflict(`Event ${id} is undone already, by event ${undone.id}.`);
      if (row.kind === "day-closed") throw conflict("A closed day stays closed.");
      const clash = await restore(change, JSON.parse(row.before) as Image[]);
      if (clash !== undefined) throw conflict(`${clash.id} was changed again since: undo that first.`);
      await soundDay(change);
      const said = { who: body.who, kind: "undone", subject: row.subject, body: { event: id, kind: row.kind } };
      return { status: 201, body: { event: await record(app, change, said, id) } };
    });
    return work.answer;
  },
);
