/** The whole day: read as a day file, replaced by one. */
import { failureSchema, editedSchema } from "../contract/answers.ts";
import { daySchema } from "../contract/day.ts";
import type { DayFile } from "../contract/day.ts";
import { readDay } from "../day/read-day.ts";
import { badInput, notFound } from "../http/failure.ts";
import { etag, route } from "../http/route.ts";
import type { Route } from "../http/route.ts";
import { revisionOf } from "../store/change.ts";
import { dayOf, putDay, shopRows } from "./day-rows.ts";
import { checkMatch, record, tagAfter } from "./edit.ts";

export function dayRoutes(): Route[] {
  return [readRoute, putRoute];
}

const readRoute = route(
  {
    method: "get",
    path: "/day",
    tag: "day",
    summary: "The day as it stands, as a day file",
    answers: { 200: daySchema, 404: failureSchema },
  },
  async ({ app }) => {
    const day = dayOf(await shopRows(app.store.db));
    if (day === undefined) throw notFound("day: no shop is set up yet");
    return { status: 200, body: day, headers: { ETag: etag(await revisionOf(app.store.db)) } };
  },
);

const putRoute = route(
  {
    method: "put",
    path: "/day",
    tag: "day",
    summary:
      "Replace everything by a day file, all or nothing; the plan in force ends. With If-Match only where nobody changed anything since it was read",
    rawBody: "application/json",
    query: { who: "who does it" },
    answers: { 200: editedSchema, 412: failureSchema, 422: failureSchema },
  },
  async ({ app, body, query, commit }, request) => {
    const read = readDay(new Uint8Array(body));
    if (!read.ok) throw badInput("The day file is not sound, so nothing was changed.", read.problems);
    const day = JSON.parse(body.toString("utf8").replace(/^\uFEFF/, "")) as DayFile;
    const { answer } = await commit(async (change) => {
      checkMatch(request.headers["if-match"], await revisionOf(change.trx), "The day");
      await putDay(change, day);
      const who = (query["who"] ?? "").slice(0, 60);
      const event = await record(app, change, { who, kind: "day-put", subject: day.title ?? "", body: {} });
      return { status: 200, body: { id: "day", event, warnings: read.warnings }, headers: await tagAfter(change) };
    });
    return answer;
  },
);
