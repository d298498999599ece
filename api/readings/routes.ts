/** Readings at the oven: chamber and metal temperatures, the gas meter. They calibrate the oven later. */
import { z } from "zod";
import { failureSchema, readingAnswerSchema, readingSchema } from "../contract/answers.ts";
import { calibrationAskSchema, calibrationSchema } from "../contract/calibrating.ts";
import type { App } from "../http/app-parts.ts";
import { badInput, notFound } from "../http/failure.ts";
import { route } from "../http/route.ts";
import type { Route } from "../http/route.ts";
import { dayOf, shopRows } from "../shop/day-rows.ts";
import { shopTime } from "../shop/instants.ts";
import { rowOf } from "../store/change.ts";
import { calibrationOf } from "./calibration.ts";

export function readingRoutes(): Route[] {
  return [listRoute, addRoute, calibrateRoute];
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

const calibrateRoute = route(
  {
    method: "post",
    path: "/ovens/:id/calibration",
    tag: "readings",
    summary: "An oven's figures proposed from its readings; nothing is saved, put the oven with If-Match to take them",
    keyed: false,
    body: calibrationAskSchema,
    answers: { 200: calibrationSchema, 404: failureSchema, 409: failureSchema, 422: failureSchema },
  },
  async ({ app, params, body }) => {
    const from = body.from === undefined ? -Infinity : await millisOf(app, body.from);
    return { status: 200, body: await calibrationOf(app, params["id"] ?? "", from) };
  },
);

async function millisOf({ store }: App, instant: string): Promise<number> {
  const day = dayOf(await shopRows(store.db));
  const millis = day === undefined ? Date.parse(instant) : shopTime(day).millis(instant);
  if (Number.isFinite(millis)) return millis;
  throw badInput(`The clock change skips or repeats ${instant}: write it with its offset.`);
}
