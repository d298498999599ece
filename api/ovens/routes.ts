/** Ovens over HTTP, and the loads of the plan in force as they are now. */
import { z } from "zod";
import { loadAnswerSchema } from "../contract/answers.ts";
import { ovenSchema } from "../contract/oven.ts";
import type { Route } from "../http/route.ts";
import { route } from "../http/route.ts";
import { entryRoutes } from "../shop/entry-routes.ts";
import { rowsOf } from "../store/change.ts";

export function ovenRoutes(): Route[] {
  const state = z.enum(["in use", "out of use"]);
  return [...entryRoutes({ list: "ovens", table: "oven", tag: "ovens", schema: ovenSchema, state }), loadsRoute];
}

const loadsRoute = route(
  {
    method: "get",
    path: "/loads",
    tag: "ovens",
    summary: "Loads of the day: over, under way, to come; with the instants as they were reported",
    answers: { 200: z.object({ loads: z.array(loadAnswerSchema) }) },
  },
  async ({ app }) => {
    const rows = await rowsOf(app.store.db, "load");
    const loads = rows
      .map(({ id, state, note, body }) => ({ id, state, note, load: JSON.parse(body) as { doorOpensAt: string } }))
      .toSorted((a, b) => Date.parse(a.load.doorOpensAt) - Date.parse(b.load.doorOpensAt));
    return { status: 200, body: { loads } };
  },
);
