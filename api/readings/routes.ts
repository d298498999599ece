/** Readings at the oven: chamber and metal temperatures, the gas meter. They calibrate the oven later. */
import { z } from "zod";
import { failureSchema, readingAnswerSchema, readingSchema } from "../contract/answers.ts";
import { notFound } from "../http/failure.ts";
import { route } from "../http/route.ts";
import type { Route } from "../http/route.ts";
import { rowOf } from "../store/change.ts";

export function readingRoutes(): Route[] {
  return [listRoute, addRoute];
}

const mostListed = 10_000;

const listRoute = route(
  {
    method: "get",
    path: "/readings",
    tag: "readings",
    summary: `The last ${mostListed} readings, oldest first`,
    query: { oven: "only of this oven" },
    answers: { 200: z.object({ readings: z.array(readingAnswerSchema) }) },
  },
  async ({ app, query }) => {
    const all = app.store.db.selectFrom("reading").selectAll().orderBy("id", "desc").limit(mostListed);
    const rows = await (query["oven"] === undefined ? all : all.where("oven", "=", query["oven"])).execute();
    const readings = rows.toReversed().map(({ id, at, body }) => ({ id, at, reading: JSON.parse(body) as unknown }));
    return { status: 200, body: { readings } };
  },
);

const addRoute = route(
  {
    method: "post",
    path: "/readings",
    tag: "readings",
    summary: "Keep a reading",
    body: readingSchema,
    answers: { 201: readingAnswerSchema, 404: failureSchema, 422: failureSchema },
  },
  async ({ app, body, commit }) => {
    const work = await commit(async ({ trx }) => {
      if ((await rowOf(trx, "oven", body.oven)) === undefined) throw notFound(`oven ${body.oven}`);
      const at = body.at ?? new Date(app.clock.now()).toISOString();
      const values = { at, oven: body.oven, load: body.load ?? null, body: JSON.stringify(body) };
      const [row] = await trx.insertInto("reading").values(values).returning("id").execute();
      return { status: 201, body: { id: row?.id, at, reading: body } };
    });
    return work.answer;
  },
);
