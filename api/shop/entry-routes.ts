/** The routes that pans, coatings and ovens have alike: list, add, read, replace, take away. */
import type { Request } from "express";
import { z } from "zod";
import { failureSchema, editedSchema } from "../contract/answers.ts";
import { instant, name } from "../contract/parts.ts";
import { conflict, notFound } from "../http/failure.ts";
import { writtenJson } from "../http/read-body.ts";
import { etag, route } from "../http/route.ts";
import type { Route } from "../http/route.ts";
import { rowOf, rowsOf } from "../store/change.ts";
import type { EditedRow } from "../store/tables.ts";
import { record, rowToEdit, soundDay, tagAfter } from "./edit.ts";
import { stillOverdue } from "./overdue.ts";
import { ovenNote } from "./equipment.ts";

export interface Entries {
  /** Plural, as in the path and in the day file. */
  readonly list: "pans" | "coatings" | "ovens";
  readonly table: "pan" | "coating" | "oven";
  readonly tag: string;
  readonly schema: z.ZodType<{ readonly id: string }>;
  readonly state: z.ZodType;
}

/** `follows`: a pan that somebody put in or changed is no longer where the plan in force had it. */
const followsOf = (table: Entries["table"]): { follows?: string } => (table === "pan" ? { follows: "no" } : {});

export function entryRoutes(entries: Entries): Route[] {
  return [listRoute(entries), addRoute(entries), readRoute(entries), replaceRoute(entries), dropRoute(entries)];
}

/** An oven's state says more: when it is expected back, which of its shelves are out. */
const ovenStateShape = { until: instant.nullable(), shelvesOut: z.array(name) };

function entryAnswer({ table, schema, state }: Entries): z.ZodType {
  const more = table === "oven" ? ovenStateShape : {};
  return z.object({ [table]: schema, state, note: z.string(), ...more, version: z.int() });
}

function shown(table: string, { body, state, note, version }: EditedRow): Record<string, unknown> {
  const entry = { [table]: JSON.parse(body) as unknown, state, version };
  if (table !== "oven") return { ...entry, note };
  const { why, until, shelvesOut } = ovenNote(note);
  return { ...entry, note: why, until, shelvesOut };
}

function listRoute(entries: Entries): Route {
  const { list, table, tag } = entries;
  return route(
    {
      method: "get",
      path: `/${list}`,
      tag,
      summary: `All ${list}, with their states`,
      answers: { 200: z.object({ [list]: z.array(entryAnswer(entries)) }) },
    },
    async ({ app }) => {
      const rows = await rowsOf(app.store.db, table);
      return { status: 200, body: { [list]: rows.map((row) => shown(table, row)) } };
    },
  );
}

function addRoute({ list, table, tag, schema }: Entries): Route {
  return route(
    {
      method: "post",
      path: `/${list}`,
      tag,
      summary: `Add a ${table}`,
      body: z.strictObject({ [table]: schema, who: z.string().trim().max(60).default("") }),
      answers: { 201: editedSchema, 409: failureSchema, 422: failureSchema },
    },
    async ({ app, body, commit }, request) => {
      const asked = body as { who: string } & Record<string, { id: string }>;
      const { id } = asked[table] as { id: string };
      const written = writtenBody(request, table);
      const { answer } = await commit(async (change) => {
        if ((await rowOf(change.trx, table, id)) !== undefined)
          throw conflict(`${id} is there already: change it, or give the new one another id.`);
        await change.put(table, id, { body: written, ...followsOf(table) });
        const warnings = await soundDay(change, { list, id, as: table });
        const event = await record(app, change, {
          who: asked.who,
          kind: `${table}-added`,
          subject: id,
          body: JSON.parse(written),
        });
        return {
          status: 201,
          body: { id, event, warnings },
          headers: { ...(await tagAfter(change)), Location: `/${list}/${encodeURIComponent(id)}` },
        };
      });
      return answer;
    },
  );
}

/** As written, without the defaults that reading fills in, so that an export gives back what was put in. */
function writtenBody(request: Request, table: string): string {
  return JSON.stringify(writtenJson(request)[table]);
}

function readRoute(entries: Entries): Route {
  const { list, table, tag } = entries;
  return route(
    {
      method: "get",
      path: `/${list}/:id`,
      tag,
      summary: `One ${table}; its ETag is what If-Match wants`,
      answers: { 200: entryAnswer(entries), 404: failureSchema },
    },
    async ({ app, params }) => {
      const row = await rowOf(app.store.db, table, params["id"] ?? "");
      if (row === undefined) throw notFound(`${table} ${params["id"]}`);
      return { status: 200, body: shown(table, row), headers: { ETag: etag(row.version) } };
    },
  );
}

function replaceRoute({ list, table, tag, schema }: Entries): Route {
  return route(
    {
      method: "put",
      path: `/${list}/:id`,
      tag,
      summary: `Change a ${table}`,
      ifMatch: true,
      body: z.strictObject({ [table]: schema, who: z.string().trim().max(60).default("") }),
      answers: { 200: editedSchema, 404: failureSchema, 409: failureSchema, 412: failureSchema, 422: failureSchema },
    },
    async ({ app, params, body, ifMatch, commit }, request) => {
      const id = params["id"] ?? "";
      const asked = body as { who: string } & Record<string, { id: string }>;
      if ((asked[table] as { id: string }).id !== id)
        throw conflict("The id in the body is another one: ids do not change.");
      const { answer } = await commit(async (change) => {
        const row = await rowToEdit(change, table, id, ifMatch);
        const written = stillOverdue(row.body, writtenBody(request, table));
        await change.put(table, id, { body: written, ...(onlyPromise(row.body, written) ? {} : followsOf(table)) });
        const warnings = await soundDay(change, { list, id, as: table });
        const event = await record(app, change, {
          who: asked.who,
          kind: `${table}-changed`,
          subject: id,
          body: JSON.parse(written),
        });
        return { status: 200, body: { id, event, warnings }, headers: await tagAfter(change) };
      });
      return answer;
    },
  );
}

/** A new promise or priority says nothing about how far the pan is. */
function onlyPromise(before: string, after: string): boolean {
  const bare = (text: string): string => {
    const pan = JSON.parse(text) as Record<string, unknown>;
    for (const field of ["promisedAt", "overdue", "priority", "ticket", "latePerHour", "leftOverCost"])
      delete pan[field];
    return JSON.stringify(pan);
  };
  return bare(before) === bare(after);
}

function dropRoute({ list, table, tag }: Entries): Route {
  return route(
    {
      method: "delete",
      path: `/${list}/:id`,
      tag,
      summary: `Take a ${table} away${table === "pan" ? "; a pan that the customer takes back is an event instead" : ""}`,
      ifMatch: true,
      query: { who: "who does it" },
      answers: { 204: null, 404: failureSchema, 409: failureSchema, 412: failureSchema, 422: failureSchema },
    },
    async ({ app, params, query, ifMatch, commit }) => {
      const id = params["id"] ?? "";
      const { answer } = await commit(async (change) => {
        await rowToEdit(change, table, id, ifMatch);
        await change.drop(table, id);
        await soundDay(change);
        await record(app, change, {
          who: (query["who"] ?? "").slice(0, 60),
          kind: `${table}-taken-away`,
          subject: id,
          body: {},
        });
        return { status: 204 };
      });
      return answer;
    },
  );
}
