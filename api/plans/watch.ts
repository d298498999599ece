/** A search watched as server-sent events: every better plan with cost, bound and seconds, and its end. */
import { failureSchema } from "../contract/answers.ts";
import { route } from "../http/route.ts";
import type { Route } from "../http/route.ts";
import type { Better } from "./messages.ts";
import { planId } from "./routes.ts";
import { answerOf, planRow, toldOf } from "./searches.ts";

/** Keeps proxies and sleepy phones from closing the line. */
const beatMs = 15_000;

export const watchRoute: Route = route(
  {
    method: "get",
    path: "/plans/:id/events",
    tag: "plans",
    summary:
      "Server-sent events: `better` {cost, bound, seconds, steps, plan, difference}, then `ended` with the search as GET /plans/{id} tells it",
    answers: { 200: "text/event-stream", 404: failureSchema },
  },
  async ({ app, params }, request, response) => {
    const row = await planRow(app.store.db, await planId(app, params["id"] ?? ""));
    const { id } = row;
    response
      .status(200)
      .set({ "Content-Type": "text/event-stream", "Cache-Control": "no-store", "X-Accel-Buffering": "no" });
    response.flushHeaders();
    const say = (event: string, data: unknown): void =>
      void response.write(`event: ${event}\ndata: ${JSON.stringify(data)}\n\n`);
    const better = ({ seconds, steps, plan: found }: Better): void => {
      const { plan, difference } = toldOf(row, found);
      const { total: cost } = plan.cost;
      say("better", { cost, bound: plan.search.bestPossibleCost, seconds, steps, plan, difference });
    };
    const end = async (): Promise<void> => {
      if (response.writableEnded) return;
      say("ended", await answerOf(app, id));
      response.end();
    };
    const beat = setInterval(() => response.write(": still here\n\n"), beatMs);
    const listening = app.planner.listen(id, (told) => {
      if (told.kind === "better") better(told.better);
      else void end().catch(() => response.destroy());
    });
    const leave = (): void => {
      clearInterval(beat);
      listening?.leave();
    };
    response.on("close", leave);
    if (request.destroyed) leave();
    if (listening?.best !== undefined) better(listening.best);
    if (listening === undefined) await end();
    return undefined;
  },
);
