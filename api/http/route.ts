/** A route as data: from the same declaration come the handler in express and the entry in the OpenAPI document. */
import type { Request, Response } from "express";
import type { z } from "zod";
import type { App } from "./app-parts.ts";
import type { Commit } from "./idempotency.ts";

export interface Answer {
  readonly status: number;
  readonly body?: unknown;
  readonly headers?: Readonly<Record<string, string>>;
}

/** What a handler is given: everything read and checked. */
export interface Asked<Body> {
  readonly app: App;
  readonly params: Readonly<Record<string, string>>;
  readonly query: Readonly<Record<string, string>>;
  readonly body: Body;
  /** Version that If-Match asks for; undefined where the route wants none. */
  readonly ifMatch: string | undefined;
  /** The only way to write: all or nothing, once per Idempotency-Key. */
  readonly commit: Commit;
}

export interface Declared {
  readonly method: "get" | "post" | "put" | "patch" | "delete";
  /** With express parameters, as /pans/:id. */
  readonly path: string;
  readonly summary: string;
  readonly tag: string;
  readonly query?: Readonly<Record<string, string>>;
  /** JSON body; a raw body has a media type instead. */
  readonly body?: z.ZodType;
  readonly rawBody?: string;
  /** Status -> schema of its JSON, a media type for anything else, or null for no body. */
  readonly answers: Readonly<Record<number, z.ZodType | string | null>>;
  /** Two people may edit it: a change needs If-Match. */
  readonly ifMatch?: boolean;
  /** False for posts that save nothing. */
  readonly keyed?: boolean;
  readonly open?: boolean;
}

export interface Route extends Declared {
  /** Answers a value; undefined where it writes to the response itself (a stream). */
  readonly handle: (asked: Asked<never>, request: Request, response: Response) => Promise<Answer | undefined>;
}

type BodyOf<D extends Declared> = D["body"] extends z.ZodType
  ? z.output<D["body"]>
  : D["rawBody"] extends string
    ? Buffer
    : undefined;

export function route<const D extends Declared>(
  declared: D,
  handle: (asked: Asked<BodyOf<D>>, request: Request, response: Response) => Promise<Answer | undefined>,
): Route {
  return { ...declared, handle };
}

export const etag = (version: number | string): string => `"${version}"`;
