/** Prices, staffed hours and the other figures of the shop: each is read and replaced as a whole. */
import { z } from "zod";
import { failureSchema, editedSchema } from "../contract/answers.ts";
import { daySchema } from "../contract/day.ts";
import { badInput, notFound } from "../http/failure.ts";
import { writtenJson } from "../http/read-body.ts";
import { etag, route } from "../http/route.ts";
import type { Route } from "../http/route.ts";
import { rowOf } from "../store/change.ts";
import { checkMatch, record, rowToEdit, soundDay, tagAfter } from "./edit.ts";

const fields = daySchema.in.shape;

/** Path -> field of the day file. */
const paths = {
  "/prices": "prices",
  "/staffed": "staffed",
  "/settings/gas": "gas",
  "/settings/prep": "prep",
  "/settings/booth": "booth",
  "/settings/mixing": "mixing",
  "/settings/materials": "materials",
  "/settings/title": "title",
  "/settings/currency": "currency",
  "/settings/timeZone": "timeZone",
  "/settings/planFrom": "planFrom",
  "/settings/nextOpen": "nextOpen",
  "/settings/ambientC": "ambientC",
  "/settings/finishMinutes": "finishMinutes",
} as const;

type Field = (typeof paths)[keyof typeof paths];

export function settingRoutes(): Route[] {
  return Object.entries(paths).flatMap(([path, field]) => [readSetting(path, field), putSetting(path, field)]);
}

/** A setting that the day file did not write has version 0 and its default. */
const unwritten = 0;

function readSetting(path: string, field: Field): Route {
  const answer = z.object({ value: fields[field], version: z.int() });
  return route(
    { method: "get", path, tag: "shop", summary: `The shop's ${field}`, answers: { 200: answer, 404: failureSchema } },
    async ({ app }) => {
      const row = await rowOf(app.store.db, "setting", field);
      const standard = fields[field].safeParse(undefined);
      if (row === undefined && !standard.success) throw notFound(`${field}: no shop is set up yet`);
      const value = row === undefined ? standard.data : (JSON.parse(row.body) as unknown);
      const version = row?.version ?? unwritten;
      return { status: 200, body: { value, version }, headers: { ETag: etag(version) } };
    },
  );
}

function putSetting(path: string, field: Field): Route {
  return route(
    {
      method: "put",
      path,
      tag: "shop",
      summary: `Replace the shop's ${field}`,
      ifMatch: true,
      body: z.strictObject({ value: fields[field], who: z.string().trim().max(60).default("") }),
      answers: { 200: editedSchema, 409: failureSchema, 412: failureSchema, 422: failureSchema },
    },
    async ({ app, body, ifMatch, commit }, request) => {
      const value = writtenJson(request)["value"];
      if (value === undefined) throw badInput(`${field} is missing: send it as value.`);
      const { answer } = await commit(async (change) => {
        if ((await rowOf(change.trx, "setting", field)) === undefined) checkMatch(ifMatch, unwritten, field);
        else await rowToEdit(change, "setting", field, ifMatch);
        const told = field === "gas" ? { follows: new Date(app.clock.now()).toISOString() } : {};
        const parts = field === "booth" ? { note: "" } : told;
        await change.put("setting", field, { body: JSON.stringify(value), ...parts });
        const warnings = await soundDay(change, { list: field, as: "value" });
        const event = await record(app, change, {
          who: body.who,
          kind: "setting-changed",
          subject: field,
          body: { value },
        });
        return { status: 200, body: { id: field, event, warnings }, headers: await tagAfter(change) };
      });
      return answer;
    },
  );
}
