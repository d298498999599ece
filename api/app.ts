/** The service as an express application. It never listens: main.ts and the tests do. */
import express from "express";
import type { Express, RequestHandler } from "express";
import { rateLimit } from "express-rate-limit";
import helmet from "helmet";
import { closingRoutes } from "./closing/routes.ts";
import { coatingRoutes } from "./coatings/routes.ts";
import { healthSchema } from "./contract/answers.ts";
import { eventRoutes } from "./events/routes.ts";
import { explainRoutes } from "./explain/routes.ts";
import type { App } from "./http/app-parts.ts";
import { answerFailure, largestBody } from "./http/answer-failure.ts";
import type { Report } from "./http/answer-failure.ts";
import { Refusal } from "./http/failure.ts";
import { route } from "./http/route.ts";
import type { Route } from "./http/route.ts";
import { serve } from "./http/serve.ts";
import { openApiDocument } from "./openapi/document.ts";
import { ovenRoutes } from "./ovens/routes.ts";
import { panRoutes } from "./pans/routes.ts";
import { printRoutes } from "./plans/print-routes.ts";
import { askRoutes } from "./plans/ask-routes.ts";
import { planRoutes } from "./plans/routes.ts";
import { watchRoute } from "./plans/watch.ts";
import { readingRoutes } from "./readings/routes.ts";
import { hostGuard } from "./security/guards.ts";
import { sessionRoutes } from "./security/session-routes.ts";
import { tokenGuard } from "./security/session.ts";
import type { Doorman } from "./security/session.ts";
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
  readonly report: Report;
  /** The built page; undefined where there is none. */
  readonly page?: string;
}

/** A whole workshop's tablets reload at once; a runaway script does not get far. */
const requestsPerSecond = 2000;
const loginsPerMinute = 20;

export function createApp(options: AppOptions): Express {
  const app = express();
  app.disable("x-powered-by");
  app.set("query parser", "simple");
  app.set("etag", false);
  // A path is as the document writes it (RFC 3986 § 6.2.2.1: paths are case-sensitive), so that guards and routes agree.
  app.enable("case sensitive routing");
  app.enable("strict routing");
  if (options.log) app.use(options.log);
  app.use(securityHeaders());
  app.use(hostGuard(options));
  app.use(limited(requestsPerSecond, 1000));
  const doorman = doormanOf(options);
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

function doormanOf({ store, clock, token }: AppOptions): Doorman {
  return { db: store.db, clock, token };
}

function allRoutes(options: AppOptions): Route[] {
  return [
    healthRoute,
    ...sessionRoutes(doormanOf(options)),
    ...dayRoutes(),
    ...closingRoutes(),
    ...settingRoutes(),
    ...panRoutes(),
    ...coatingRoutes(),
    ...ovenRoutes(),
    ...readingRoutes(),
    ...eventRoutes(),
    ...askRoutes(),
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
