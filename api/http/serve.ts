/** Puts a route into express: reads and checks what came, runs the handler, answers. */
import type { Request, RequestHandler, Response } from "express";
import { Refusal } from "./failure.ts";
import type { App } from "./app-parts.ts";
import { commitFor, keyOf } from "./idempotency.ts";
import { bytesOf, readBody } from "./read-body.ts";
import type { Answer, Route } from "./route.ts";

export function serve(app: App, route: Route): RequestHandler {
  return async (request, response) => {
    const body = route.body
      ? readBody(request, route.body)
      : route.rawBody
        ? rawBody(request, route.rawBody)
        : undefined;
    const asked = {
      app,
      params: paramsOf(request),
      query: queryOf(request),
      body: body as never,
      ifMatch: route.ifMatch ? ifMatchOf(request) : undefined,
      commit: commitFor(app, route.keyed === false ? undefined : keyOf(request)),
    };
    const answer = await route.handle(asked, request, response);
    if (answer !== undefined) send(response, answer);
  };
}

function rawBody(request: Request, type: string): Buffer {
  if (!request.headers["content-type"]?.toLowerCase().startsWith(type))
    throw new Refusal(415, "Wrong media type", `Send ${type}.`);
  return bytesOf(request);
}

function paramsOf(request: Request): Record<string, string> {
  return Object.fromEntries(Object.entries(request.params).map(([key, value]) => [key, String(value)]));
}

/** A field given twice counts once, with its last value. */
function queryOf(request: Request): Record<string, string> {
  return Object.fromEntries(new URL(request.originalUrl, "http://shop").searchParams);
}

function ifMatchOf(request: Request): string {
  const value = request.headers["if-match"];
  if (value === undefined || value === "*")
    throw new Refusal(
      428,
      "If-Match needed",
      "Send If-Match with the ETag last read, so that nobody's change is lost.",
    );
  return value;
}

export function send(response: Response, { status, body, headers }: Answer): void {
  response.status(status).set({ "Cache-Control": "no-store", ...headers });
  if (body === undefined) response.end();
  else if (typeof body === "string") response.send(body);
  else response.json(body);
}
