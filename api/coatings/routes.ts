/** Coat systems over HTTP. */
import { z } from "zod";
import { coatingSchema } from "../contract/coating.ts";
import type { Route } from "../http/route.ts";
import { entryRoutes } from "../shop/entry-routes.ts";

export function coatingRoutes(): Route[] {
  const state = z.literal("in use");
  return entryRoutes({ list: "coatings", table: "coating", tag: "coatings", schema: coatingSchema, state });
}
