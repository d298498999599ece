/** The real service on a real file and a free port, with a clock that the test sets; every answer is held against /openapi.json, every plan in it against its day. */
import { copyFileSync, mkdtempSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { Ajv2020 } from "ajv/dist/2020.js";
import addFormats from "ajv-formats";
import type { ValidateFunction } from "ajv";
import { serviceLogger, startService } from "../../api/service.ts";
import type { Service } from "../../api/service.ts";
import type { DayFile } from "../../api/contract/day.ts";
import type { SearchAnswer } from "../../api/contract/searching.ts";
import { auditor } from "./audit-plans.ts";
import type { Auditor } from "./audit-plans.ts";

export interface Reply {
  readonly status: number;
  readonly headers: Headers;
  // What a route answers is what the test is about.
  // oxlint-disable-next-line typescript/no-explicit-any
  readonly body: any;
  readonly text: string;
}

export interface Asking {
  readonly body?: unknown;
  readonly raw?: string | Uint8Array;
  readonly headers?: Record<string, string>;
}

export interface TestService {
  readonly address: string;
  readonly file: string;
  readonly service: Service;
  readonly setNow: (instant: string) => void;
  readonly ask: (method: string, path: string, asking?: Asking) => Promise<Reply>;
  /** Holds an answer that another client had against the contract, as `ask` does. */
  readonly hold: (method: string, path: string, reply: Reply) => void;
  /** Every plan in an answer of `ask` is audited; other clients hand theirs in here. */
  readonly auditor: Auditor;
  /** Waits until the search is over. */
  readonly finished: (id: string) => Promise<SearchAnswer>;
  readonly stop: () => Promise<void>;
}

export interface TestSettings {
  readonly token?: string;
  readonly now?: string;
  /** An address of this machine; default: its own loop. */
  readonly host?: string;
  /** A shop's file of which it begins with a copy. */
  readonly copyOf?: string;
}

export function shopDay(name: string): DayFile {
  return JSON.parse(readFileSync(new URL(`../../fixtures/shops/${name}.json`, import.meta.url), "utf8")) as DayFile;
}

export async function testService(wanted: TestSettings = {}): Promise<TestService> {
  const { token, now = "2026-09-15T05:00:00Z", host = "127.0.0.1", copyOf } = wanted;
  const folder = mkdtempSync(join(tmpdir(), "ovenful-"));
  const file = join(folder, "shop.db");
  if (copyOf !== undefined) copyFileSync(copyOf, file);
  let millis = Date.parse(now);
  const settings = { file, host, port: 0, token: token ?? null, names: [] };
  const service = await startService({ settings, clock: { now: () => millis }, logger: serviceLogger("silent") });
  const contract = await contractOf(service.address, token);
  const plans = auditor(async (id) => {
    const headers: Record<string, string> = token === undefined ? {} : { Authorization: `Bearer ${token}` };
    return (await fetch(`${service.address}/plans/${id}/request`, { headers })).json();
  });
  const ask = async (method: string, path: string, { body, raw, headers = {} }: Asking = {}): Promise<Reply> => {
    const auth = token === undefined ? {} : { Authorization: `Bearer ${token}` };
    const sent = raw ?? (body === undefined ? undefined : JSON.stringify(body));
    const type = body === undefined ? {} : { "Content-Type": "application/json" };
    const response = await fetch(service.address + path, {
      method,
      headers: { ...type, ...auth, ...headers },
      ...(sent === undefined ? {} : { body: sent }),
    });
    const text = await response.text();
    const isJson = response.headers.get("content-type")?.includes("json") ?? false;
    const reply = {
      status: response.status,
      headers: response.headers,
      text,
      body: isJson ? (JSON.parse(text) as unknown) : undefined,
    };
    contract.hold(method, path, reply);
    await plans.audit(path, response.headers.get("content-type") ?? "", text);
    return reply;
  };
  return {
    address: service.address,
    file,
    service,
    ask,
    hold: contract.hold,
    auditor: plans,
    setNow: (instant) => {
      millis = Date.parse(instant);
    },
    finished: async (id) => {
      for (;;) {
        const { body } = await ask("GET", `/plans/${id}`);
        if (body.state !== "queued" && body.state !== "searching") return body as SearchAnswer;
        await new Promise((resolve) => setTimeout(resolve, 50));
      }
    },
    stop: async () => {
      await service.stop();
      rmSync(folder, { recursive: true, force: true });
    },
  };
}

interface Contract {
  readonly hold: (method: string, path: string, reply: Reply) => void;
}

/** Throws where an answer is none that the document announces for its path. */
async function contractOf(address: string, token?: string): Promise<Contract> {
  const headers: Record<string, string> = token === undefined ? {} : { Authorization: `Bearer ${token}` };
  const document = (await (await fetch(`${address}/openapi.json`, { headers })).json()) as OpenApi;
  const ajv = new Ajv2020({ strict: false, allErrors: false });
  addFormats.default(ajv);
  ajv.addSchema(document, "openapi");
  const checks = new Map<string, ValidateFunction>();
  const paths = Object.keys(document.paths).toSorted((a, b) => Number(a.includes("{")) - Number(b.includes("{")));
  const patterns = paths.map(
    (path) => [path, new RegExp(`^${path.replace(/\./g, "\\.").replace(/\{\w+\}/g, "[^/]+")}$`)] as const,
  );
  const hold = (method: string, path: string, reply: Reply): void => {
    const bare = path.split("?")[0] ?? path;
    const found = patterns.find(([, pattern]) => pattern.test(bare))?.[0];
    const operation = found === undefined ? undefined : document.paths[found]?.[method.toLowerCase()];
    if (found === undefined || operation === undefined) {
      // The page's own files are no part of the service.
      if (reply.status < 400 && /json|csv|calendar|event-stream/.test(reply.headers.get("content-type") ?? ""))
        throw new Error(`${method} ${path} answers ${reply.status} and is not in the document`);
      return;
    }
    const key = operation.responses[String(reply.status)] === undefined ? "default" : String(reply.status);
    if (key === "default" && reply.status < 400)
      throw new Error(`${method} ${found} answers ${reply.status}, which is not announced`);
    const media = Object.keys(operation.responses[key]?.content ?? {})[0];
    const sent = (reply.headers.get("content-type") ?? "").split(";")[0] ?? "";
    if (media === undefined) {
      if (reply.text !== "") throw new Error(`${method} ${found} ${reply.status} announces no body`);
      return;
    }
    if (sent !== media) throw new Error(`${method} ${found} ${reply.status} announces ${media} and answers ${sent}`);
    if (!media.includes("json")) return;
    const escape = (part: string): string => part.replace(/~/g, "~0").replace(/\//g, "~1");
    const pointer = ["paths", found, method.toLowerCase(), "responses", key, "content", media, "schema"]
      .map(escape)
      .join("/");
    const check = checks.get(pointer) ?? ajv.compile({ $ref: `openapi#/${encodeURI(pointer)}` });
    checks.set(pointer, check);
    if (!check(reply.body))
      throw new Error(`${method} ${path} ${reply.status} is not as announced: ${ajv.errorsText(check.errors)}`);
  };
  return { hold };
}

interface OpenApi {
  readonly paths: Readonly<
    Record<
      string,
      Readonly<
        Record<
          string,
          { readonly responses: Readonly<Record<string, { readonly content?: Readonly<Record<string, unknown>> }>> }
        >
      >
    >
  >;
}
