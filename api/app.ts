/** The service as an express application. It never listens: main.ts and the tests do. */
import express from "express";
import type { ErrorRequestHandler, Express, RequestHandler } from "express";
import { rateLimit } from "express-rate-limit";
import helmet from "helmet";
import { z } from "zod";
import { closingRoutes } from "./closing/routes.ts";
import { coatingRoutes } from "./coatings/routes.ts";
import { failureSchema, healthSchema, loginSchema } from "./contract/answers.ts";
import { eventRoutes } from "./events/routes.ts";
import { explainRoutes } from "./explain/routes.ts";
import type { App } from "./http/app-parts.ts";
import { Refusal, failureOf } from "./http/failure.ts";
import { route } from "./http/route.ts";
import type { Route } from "./http/route.ts";
import { serve } from "./http/serve.ts";
import { openApiDocument } from "./openapi/document.ts";
import { ovenRoutes } from "./ovens/routes.ts";
import { panRoutes } from "./pans/routes.ts";
import { printRoutes } from "./plans/print-routes.ts";
import { planRoutes } from "./plans/routes.ts";
import { watchRoute } from "./plans/watch.ts";
import { readingRoutes } from "./readings/routes.ts";
import { hostGuard, isSecret } from "./security/guards.ts";
import { endSession, openSession, tokenGuard } from "./security/session.ts";
import type { Settings } from "./settings.ts";
import { changesRoute } from "./shop/changes.ts";
import { dayRoutes } from "./shop/day-routes.ts";
import { settingRoutes } from "./shop/setting-routes.ts";
import { version } from "./version.ts";
import { whatIfRoutes } from "./what-if/routes.ts";

export interface AppOptions extends App, Pick<Settings, "host" | "names" | "token"> {
  /** Writes one line a request; nothing of what the request holds. */
  readonly log?: RequestHandler;
  /** Our bugs: logged with the stack, answered without it. Answers the number under which it is found. */
  readonly report: (error: unknown, where: string) => string;
  /** The built page; undefined where there is none. */
  readonly page?: string;
}

const largestBody = "4mb";
/** A whole workshop's tablets reload at once; a runaway script does not get far. */
const requestsPerSecond = 2000;
const loginsPerMinute = 20;

export function createApp(options: AppOptions): Express {
  const app = express();
  app.disable("x-powered-by");
  app.set("query parser", "simple");
  app.set("etag", false);
  if (options.log) app.use(options.log);
  app.use(securityHeaders());
  app.use(hostGuard(options));
  app.use(limited(requestsPerSecond, 1000));
  const doorman = { db: options.store.db, clock: options.clock, token: options.token };
  const routes = allRoutes(options);
  const isOpen = new Set(
    routes.filter(({ open }) => open).map(({ method, path }) => `${method.toUpperCase()} ${path}`),
  );
  const isPage = (path: string): boolean =>
    path === "/" || path.startsWith("/assets/") || /^\/[\w-]+\.(html|svg|png|webmanifest|js|css)$/.test(path);
  app.use(
    tokenGuard(
      doorman,
      (request) =>
        isOpen.has(`${request.method} ${request.path}`) || (request.method === "GET" && isPage(request.path)),
    ),
  );
  app.use("/session", limited(loginsPerMinute, 60_000));
  app.use(express.raw({ type: () => true, limit: largestBody, inflate: false }));
  const document = openApiDocument(routes);
  app.get("/openapi.json", (_request, response) => void response.json(document));
  for (const one of routes) app[one.method](one.path, serve(options, one));
  if (options.page !== undefined) app.use(express.static(options.page, { index: "index.html" }));
  app.use((request) => {
    throw new Refusal(404, "Not found", `There is nothing at ${request.path.slice(0, 200)}.`);
  });
  app.use(answerFailure(options.report));
  return app;
}

function allRoutes(options: AppOptions): Route[] {
  return [
    healthRoute,
    loginRoute(options),
    logoutRoute(options),
    ...dayRoutes(),
    ...closingRoutes(),
    ...settingRoutes(),
    ...panRoutes(),
    ...coatingRoutes(),
    ...ovenRoutes(),
    ...readingRoutes(),
    ...eventRoutes(),
    ...planRoutes(),
    watchRoute,
    changesRoute,
    ...explainRoutes(),
    ...whatIfRoutes(),
    ...printRoutes(),
  ];
}

function securityHeaders(): RequestHandler {
  return helmet({
    contentSecurityPolicy: {
      useDefaults: false,
      directives: {
        "default-src": ["'self'"],
        "script-src": ["'self'"],
        "style-src": ["'self'"],
        "img-src": ["'self'", "data:"],
        "object-src": ["'none'"],
        "base-uri": ["'none'"],
        "form-action": ["'self'"],
        "frame-ancestors": ["'none'"],
      },
    },
    // The shop's own net speaks plain HTTP; a promise of HTTPS would lock the tablet out.
    strictTransportSecurity: false,
    referrerPolicy: { policy: "no-referrer" },
  });
}

function limited(limit: number, windowMs: number): RequestHandler {
  return rateLimit({
    limit,
    windowMs,
    standardHeaders: "draft-8",
    legacyHeaders: false,
    validate: false,
    handler: (_request, _response, next) => next(new Refusal(429, "Too many requests", "Wait a moment and ask again.")),
  });
}

const healthRoute = route(
  {
    method: "get",
    path: "/health",
    tag: "service",
    summary: "Is the service up",
    open: true,
    answers: { 200: healthSchema },
  },
  async ({ app }) => {
    await app.store.db.selectFrom("shop").select("revision").execute();
    return { status: 200, body: { status: "ok", version, ...app.planner.counts } };
  },
);

function loginRoute(options: AppOptions): Route {
  return route(
    {
      method: "post",
      path: "/session",
      tag: "service",
      summary: "Show the shop's token once; a cookie that no script can read does the rest",
      open: true,
      keyed: false,
      body: loginSchema,
      answers: { 204: null, 401: failureSchema },
    },
    async ({ body }) => {
      if (options.token !== null && !isSecret(body.token, options.token))
        throw new Refusal(401, "Wrong token", "That is not the shop's token.");
      const cookie = await openSession({ db: options.store.db, clock: options.clock, token: options.token });
      return { status: 204, headers: { "Set-Cookie": cookie } };
    },
  );
}

function logoutRoute(options: AppOptions): Route {
  return route(
    { method: "delete", path: "/session", tag: "service", summary: "Log out", answers: { 204: null } },
    async (_asked, request) => {
      const cookie = await endSession(request, { db: options.store.db, clock: options.clock, token: options.token });
      return { status: 204, headers: { "Set-Cookie": cookie } };
    },
  );
}

/** What a log may say of a path: the first part of it, never which pan or ticket. */
export function roomOf(path: string): string {
  return `/${path.split(/[/?]/)[1] ?? ""}`.slice(0, 30);
}

/** Refusals tell all they know; what express refuses keeps its status; anything else is our bug and tells nothing. */
function answerFailure(report: AppOptions["report"]): ErrorRequestHandler {
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
