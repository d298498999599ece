/** Pans and tickets over HTTP, and lists of pans as tables. */
import { z } from "zod";
import { failureSchema, panStateSchema, savedSchema, ticketChangeSchema, ticketSchema } from "../contract/answers.ts";
import { panSchema } from "../contract/pan.ts";
import { addPans } from "../csv/add-pans.ts";
import { pansToCsv } from "../csv/pans-csv.ts";
import { notFound } from "../http/failure.ts";
import { textOf } from "../http/read-body.ts";
import { route } from "../http/route.ts";
import type { Route } from "../http/route.ts";
import { currentPlan } from "../shop/current.ts";
import { record, soundDay } from "../shop/edit.ts";
import { entryRoutes } from "../shop/entry-routes.ts";
import type { PanFile } from "../shop/pieces.ts";
import { rowsOf } from "../store/change.ts";
import type { EditedRow } from "../store/tables.ts";

export function panRoutes(): Route[] {
  const table = { list: "pans", table: "pan", tag: "pans", schema: panSchema, state: panStateSchema } as const;
  // The table comes first: /pans.csv is no pan.
  return [exportRoute, importRoute, ...entryRoutes(table), ticketsRoute, ticketRoute];
}

const exportRoute = route(
  {
    method: "get",
    path: "/pans.csv",
    tag: "pans",
    summary: "Pans that are waiting, as a table (RFC 4180)",
    answers: { 200: "text/csv" },
  },
  async ({ app }) => {
    const rows = (await rowsOf(app.store.db, "pan")).filter(({ state }) => state === "waiting");
    const body = pansToCsv(rows.map((row) => JSON.parse(row.body) as PanFile));
    return { status: 200, body, headers: { "Content-Type": "text/csv; charset=utf-8" } };
  },
);

const importRoute = route(
  {
    method: "post",
    path: "/pans.csv",
    tag: "pans",
    summary: "Add a table of pans: all rows or none, every bad row told by its number",
    rawBody: "text/csv",
    query: { who: "who does it" },
    answers: { 201: z.object({ added: z.int(), event: z.int() }), 409: failureSchema, 422: failureSchema },
  },
  async ({ app, body, query, commit }) => {
    const table = textOf(body);
    const who = (query["who"] ?? "").slice(0, 60);
    const work = await commit(async (change) => ({ status: 201, body: await addPans(app, change, table, who) }));
    return work.answer;
  },
);

function ticketOf({ body }: EditedRow): string {
  const pan = JSON.parse(body) as PanFile;
  return pan.ticket ?? pan.id;
}

const ticketsRoute = route(
  {
    method: "get",
    path: "/tickets",
    tag: "tickets",
    summary: "Customers' orders with their promises, and when the plan in force has them ready",
    answers: { 200: z.object({ tickets: z.array(ticketSchema) }) },
  },
  async ({ app }) => {
    const current = await currentPlan(app.store.db);
    const byTicket = new Map<string, EditedRow[]>();
    for (const row of await rowsOf(app.store.db, "pan"))
      byTicket.set(ticketOf(row), [...(byTicket.get(ticketOf(row)) ?? []), row]);
    const tickets = [...byTicket].map(([ticket, rows]) => {
      const pans = rows.map(({ body, state }) => {
        const { id, quantity = 1 } = JSON.parse(body) as PanFile;
        return { id, quantity, state };
      });
      const promisedAt = rows.flatMap(({ body }) => (JSON.parse(body) as PanFile).promisedAt ?? [])[0] ?? null;
      const planned = current?.plan.tickets.find((one) => one.ticket === ticket);
      return { ticket, pans, promisedAt, readyAt: planned?.readyAt ?? null, lateMinutes: planned?.lateMinutes ?? null };
    });
    return { status: 200, body: { tickets } };
  },
);

const ticketRoute = route(
  {
    method: "patch",
    path: "/tickets/:ticket",
    tag: "tickets",
    summary: "Another promise or priority for every pan of a ticket",
    body: ticketChangeSchema,
    answers: { 200: savedSchema, 404: failureSchema, 422: failureSchema },
  },
  async ({ app, params, body, commit }) => {
    const ticket = params["ticket"] ?? "";
    const work = await commit(async (change) => {
      const rows = (await rowsOf(change.trx, "pan")).filter(
        (row) => ticketOf(row) === ticket && row.state === "waiting",
      );
      if (rows.length === 0) throw notFound(`ticket ${ticket} among the pans that are waiting`);
      for (const row of rows)
        await change.put("pan", row.id, { body: JSON.stringify({ ...(JSON.parse(row.body) as PanFile), ...body }) });
      await soundDay(change);
      const event = await record(app, change, { who: "", kind: "ticket-changed", subject: ticket, body });
      return { status: 200, body: { id: ticket, event } };
    });
    return work.answer;
  },
);
