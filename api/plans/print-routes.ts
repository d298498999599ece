/** A plan to take along: as a calendar, as a table. */
import { failureSchema } from "../contract/answers.ts";
import type { DayFile } from "../contract/day.ts";
import type { PlanFile } from "../contract/plan.ts";
import { bakesToCsv } from "../csv/pans-csv.ts";
import { conflict } from "../http/failure.ts";
import type { App } from "../http/app-parts.ts";
import { route } from "../http/route.ts";
import type { Route } from "../http/route.ts";
import { calendarOf } from "./calendar.ts";
import { handedOut } from "./handed-out.ts";
import { planId } from "./routes.ts";
import { fileOf, planRow } from "./searches.ts";

export function printRoutes(): Route[] {
  return [calendarRoute, tableRoute];
}

async function planFile(
  app: App,
  asked: string,
): Promise<{ readonly id: string; readonly plan: PlanFile; readonly day: DayFile }> {
  const row = await planRow(app.store.db, await planId(app, asked));
  const plan = fileOf(row);
  if (plan === null) throw conflict("There is no plan yet.");
  return { id: row.id, ...handedOut(row, plan) };
}

const calendarRoute = route(
  {
    method: "get",
    path: "/plans/:id/calendar.ics",
    tag: "plans",
    summary: "Firings and hand-overs as a calendar (RFC 5545)",
    answers: { 200: "text/calendar", 404: failureSchema, 409: failureSchema },
  },
  async ({ app, params }) => {
    const { id, plan } = await planFile(app, params["id"] ?? "");
    return { status: 200, body: calendarOf(id, plan), headers: { "Content-Type": "text/calendar; charset=utf-8" } };
  },
);

const tableRoute = route(
  {
    method: "get",
    path: "/plans/:id/pans.csv",
    tag: "plans",
    summary: "Every bake of the plan, one row each (RFC 4180)",
    answers: { 200: "text/csv", 404: failureSchema, 409: failureSchema },
  },
  async ({ app, params }) => {
    const { plan, day } = await planFile(app, params["id"] ?? "");
    const tickets = new Map(day.pans.map((pan) => [pan.id, pan.ticket ?? pan.id]));
    const rows = plan.loads.flatMap((load) =>
      load.pans.map((pan) => ({
        pan: pan.id,
        item: pan.item,
        ticket: tickets.get(pan.id) ?? "",
        coat: pan.coat,
        load: load.id,
        oven: load.oven,
        setPointC: load.setPointC,
        shelf: pan.shelf,
        xCm: pan.xCm,
        yCm: pan.yCm,
        turned: pan.turned ? "yes" : "no",
        doorOpensAt: load.doorOpensAt,
        burnerOffAt: load.burnerOffAt,
        unloadAt: load.unloadAt,
        cooledAt: pan.cooledAt,
      })),
    );
    return { status: 200, body: bakesToCsv(rows), headers: { "Content-Type": "text/csv; charset=utf-8" } };
  },
);
