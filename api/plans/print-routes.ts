/** A plan to take along: as a calendar, as a table; and why two pans may or may not share a firing. */
import { failureSchema } from "../contract/answers.ts";
import type { DayFile } from "../contract/day.ts";
import type { PlanFile } from "../contract/plan.ts";
import { explainAnswerSchema, explainAskSchema } from "../contract/explaining.ts";
import { reasonSentence } from "../contract/words.ts";
import { bakesToCsv } from "../csv/pans-csv.ts";
import { readDay } from "../day/read-day.ts";
import { toRequest } from "../day/to-solver.ts";
import { conflict, notFound } from "../http/failure.ts";
import type { App } from "../http/app-parts.ts";
import { route } from "../http/route.ts";
import type { Route } from "../http/route.ts";
import { dayOf, shopRows } from "../shop/day-rows.ts";
import { dayByPiece } from "../shop/pieces.ts";
import { explainPair } from "../../solver/index.ts";
import { calendarOf } from "./calendar.ts";
import { planId } from "./routes.ts";
import { fileOf, planRow } from "./searches.ts";

export function printRoutes(): Route[] {
  return [calendarRoute, tableRoute, explainRoute];
}

async function planFile(
  app: App,
  asked: string,
): Promise<{ readonly id: string; readonly plan: PlanFile; readonly day: DayFile }> {
  const row = await planRow(app.store.db, await planId(app, asked));
  const plan = fileOf(row);
  if (plan === null) throw conflict("There is no plan yet.");
  return { id: row.id, plan, day: JSON.parse(row.day) as DayFile };
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

const explainRoute = route(
  {
    method: "post",
    path: "/explain",
    tag: "plans",
    summary: "May these two pans share a firing with the coats they need next, and if not, why",
    body: explainAskSchema,
    keyed: false,
    answers: { 200: explainAnswerSchema, 404: failureSchema, 409: failureSchema },
  },
  async ({ app, body }) => {
    const stored = dayOf(await shopRows(app.store.db));
    const read = stored === undefined ? undefined : readDay(dayByPiece(stored));
    if (!read?.ok) throw conflict("No shop is set up yet.");
    const line = (id: string): number => {
      const index = read.day.pans.findIndex((pan) => pan.id === id || pan.id.startsWith(`${id}.`));
      if (index < 0) throw notFound(`pan ${id}`);
      return index;
    };
    const request = toRequest(read.day);
    const pair = explainPair(request, line(body.one), line(body.other));
    const ovenId = (index: number | null): string | null =>
      index === null ? null : (request.ovens[index]?.id ?? null);
    if (pair.shares) {
      const { setPointC, burnerOffMinutes, slackMinutes, gasKWh } = pair;
      const heat =
        setPointC === null
          ? ""
          : ` at ${setPointC} °C, burner off ${burnerOffMinutes} min after the door closes, with ${slackMinutes} min of slack`;
      const words = [`${body.one} and ${body.other} may share a firing in ${ovenId(pair.oven)}${heat}.`];
      return {
        status: 200,
        body: {
          shares: true,
          words,
          oven: ovenId(pair.oven),
          setPointC,
          burnerOffMinutes,
          slackMinutes,
          gasKWh,
          reasons: [],
          firing: null,
        },
      };
    }
    const reasons = pair.reasons.map(({ code, numbers, oven }) => ({ code, numbers, oven: ovenId(oven) }));
    const words = pair.reasons.map(
      (reason) =>
        `${body.one} and ${body.other}${reason.oven === null ? "" : ` in ${ovenId(reason.oven)}`}: ${reasonSentence(reason)}.`,
    );
    const none = {
      firing: null,
      oven: null,
      setPointC: null,
      burnerOffMinutes: null,
      slackMinutes: null,
      gasKWh: null,
    };
    return { status: 200, body: { shares: false, words, ...none, reasons } };
  },
);
