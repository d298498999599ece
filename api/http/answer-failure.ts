/** What a client is told when a request fails, as problem details (RFC 9457). */
import type { ErrorRequestHandler } from "express";
import { z } from "zod";
import { Refusal, failureOf } from "./failure.ts";

/** Of a request, as express reads it. */
export const largestBody = "4mb";

/** Our bugs: logged with the stack. Answers the number under which it is found. */
export type Report = (error: unknown, where: string) => string;

/** What a log may say of a path: the first part of it, never which pan or ticket. */
export function roomOf(path: string): string {
  return `/${path.split(/[/?]/)[1] ?? ""}`.slice(0, 30);
}

/** Refusals tell all they know; what express refuses keeps its status; anything else is our bug and tells nothing. */
export function answerFailure(report: Report): ErrorRequestHandler {
  return (error: unknown, request, response, _next) => {
    const refusal = refusalOf(error, () => report(error, `${request.method} ${roomOf(request.path)}`));
    if (response.headersSent) return void response.destroy();
    response.status(refusal.status).type("application/problem+json").set("Cache-Control", "no-store");
    response.send(JSON.stringify(failureOf(refusal)));
  };
}

const httpErrorSchema = z.object({ status: z.int().min(400).max(499), type: z.string().optional() });

function refusalOf(error: unknown, report: () => string): Refusal {
  if (error instanceof Refusal) return error;
  const http = httpErrorSchema.safeParse(error);
  if (http.success && http.data.status === 413)
    return new Refusal(413, "Too large", `A body has at most ${largestBody}.`);
  if (http.success) return new Refusal(http.data.status, "Bad request", "The request cannot be read.");
  return new Refusal(
    500,
    "Our fault",
    `Something went wrong here. Nothing was changed. It is in the log as ${report()}.`,
  );
}
