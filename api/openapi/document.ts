/** The OpenAPI 3.1 document, made from the same declarations and schemas that the routes run on. */
import { z } from "zod";
import { failureSchema } from "../contract/answers.ts";
import { daySchema } from "../contract/day.ts";
import { planSchema } from "../contract/plan.ts";
import type { Route } from "../http/route.ts";
import { version } from "../version.ts";

type Json = Readonly<Record<string, unknown>>;

/** Schemas that many routes speak of stand once, by name. `input`: as written, fields with a default may be missing. */
const named = [
  { name: "Day", schema: daySchema as z.ZodType, io: "input" },
  { name: "Plan", schema: planSchema as z.ZodType, io: "output" },
  { name: "Failure", schema: failureSchema as z.ZodType, io: "output" },
] as const;

function jsonSchema(schema: z.ZodType, io: "input" | "output"): Json {
  const found = named.find((one) => one.schema === schema);
  return found ? { $ref: `#/components/schemas/${found.name}` } : bare(schema, io);
}

function bare(schema: z.ZodType, io: "input" | "output"): Json {
  const {
    $schema: _dialect,
    "~standard": _standard,
    ...json
  } = z.toJSONSchema(schema, { io, unrepresentable: "any", reused: "inline" }) as Record<string, unknown>;
  return json;
}

export function openApiDocument(routes: readonly Route[]): Json {
  const paths: Record<string, Record<string, Json>> = { "/openapi.json": { get: ownOperation } };
  const edited = new Set(routes.flatMap(({ ifMatch, path }) => (ifMatch ? [path] : [])));
  for (const route of routes) {
    const path = route.path.replace(/:(\w+)/g, "{$1}");
    const hasTag = route.method === "get" && edited.has(route.path);
    paths[path] = { ...paths[path], [route.method]: operation(route, path, hasTag) };
  }
  const schemas = Object.fromEntries(named.map(({ name, schema, io }) => [name, bare(schema, io)]));
  return {
    openapi: "3.1.1",
    info: {
      title: "Ovenful",
      version,
      description:
        "Plans the firings of a batch oven. The plan advises: the oven's plate, the data sheets, local codes and licensed practice rule.",
      license: { name: "MIT", identifier: "MIT" },
    },
    servers: [{ url: "/" }],
    security: [{}, { bearer: [] }, { session: [] }],
    paths,
    components: {
      schemas,
      securitySchemes: {
        bearer: { type: "http", scheme: "bearer" },
        session: { type: "apiKey", in: "cookie", name: "ovenful_session" },
      },
    },
  };
}

const ownOperation: Json = {
  operationId: "get-openapi-json",
  tags: ["service"],
  summary: "This document",
  responses: { 200: { description: "done", content: { "application/json": { schema: { type: "object" } } } } },
};

/** `hasTag`: its answer carries the ETag that a change of the same thing needs. */
function operation(route: Route, path: string, hasTag: boolean): Json {
  const parameters = [
    ...[...path.matchAll(/\{(\w+)\}/g)].map(([, name]) => ({
      name,
      in: "path",
      required: true,
      schema: { type: "string" },
    })),
    ...Object.entries(route.query ?? {}).map(([name, description]) => ({
      name,
      in: "query",
      description,
      schema: { type: "string" },
    })),
    ...(route.ifMatch ? [header("If-Match", "the ETag last read", true)] : []),
    ...(route.method === "post" && route.keyed !== false
      ? [header("Idempotency-Key", "the same key is carried out once", false)]
      : []),
  ];
  return {
    operationId: `${route.method} ${path}`.replace(/[^a-z0-9]+/gi, "-").replace(/-$/, ""),
    tags: [route.tag],
    summary: route.summary,
    ...(parameters.length > 0 ? { parameters } : {}),
    ...(route.body || route.rawBody ? { requestBody: { required: true, content: requestContent(route) } } : {}),
    responses: {
      ...answers(route, answerHeaders(route, hasTag)),
      ...refusals(route),
      default: failure("anything refused, as problem details (RFC 9457)"),
    },
  };
}

function answerHeaders(route: Route, hasTag: boolean): Json {
  const text = { schema: { type: "string" } };
  return {
    ...(hasTag ? { ETag: { description: "send it as If-Match with a change", ...text } } : {}),
    ...(route.method === "post" && route.keyed !== false
      ? { "Idempotency-Replayed": { description: "true: carried out before, under the same key", ...text } }
      : {}),
  };
}

function refusals({ ifMatch }: Route): Json {
  return ifMatch ? { 412: failure(statusWords(412)), 428: failure(statusWords(428)) } : {};
}

function header(name: string, description: string, required: boolean): Json {
  return { name, in: "header", required, description, schema: { type: "string" } };
}

function requestContent(route: Route): Json {
  if (route.body) return { "application/json": { schema: jsonSchema(route.body, "input") } };
  const schema = route.path === "/day" ? { $ref: "#/components/schemas/Day" } : { type: "string" };
  return { [route.rawBody ?? "text/plain"]: { schema } };
}

/** Things handed in are answered as they were written; everything of ours is answered in full. */
function answers({ answers: declared, path, method }: Route, headers: Json): Json {
  const asWritten = method === "get" && /^\/(day$|pans|coatings|ovens|prices|staffed|settings)/.test(path);
  return Object.fromEntries(
    Object.entries(declared).map(([status, schema]) => {
      if (schema === failureSchema) return [status, failure(statusWords(Number(status)))];
      const description = statusWords(Number(status));
      const common = { description, ...(Object.keys(headers).length > 0 ? { headers } : {}) };
      if (schema === null) return [status, common];
      if (typeof schema === "string")
        return [status, { ...common, content: { [schema]: { schema: { type: "string" } } } }];
      return [
        status,
        {
          ...common,
          content: { "application/json": { schema: jsonSchema(schema, asWritten ? "input" : "output") } },
        },
      ];
    }),
  );
}

function failure(description: string): Json {
  return { description, content: { "application/problem+json": { schema: { $ref: "#/components/schemas/Failure" } } } };
}

function statusWords(status: number): string {
  const words: Record<number, string> = {
    200: "done",
    201: "added",
    202: "begun",
    204: "gone",
    404: "not there",
    409: "not as things stand",
    412: "changed meanwhile",
    428: "If-Match is missing",
    422: "bad input; every problem is listed with its path",
  };
  return words[status] ?? String(status);
}
