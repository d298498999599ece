/** Odd requests sent to a service that has a day and a plan in force: what came of them, and of the day. */
import { request } from "node:http";
import fc from "fast-check";
import { readDay } from "../../api/day/read-day.ts";
import type { OddRequest } from "./odd-requests.ts";
import { oddRequest } from "./odd-requests.ts";
import { plannedShop } from "./planned-shop.ts";
import { shopDay } from "./service.ts";
import type { TestService } from "./service.ts";

export interface FuzzFigures {
  readonly requests: number;
  readonly byStatus: Readonly<Record<string, number>>;
  readonly slowestMs: number;
  /** Longer than a second. */
  readonly slow: number;
  readonly faults: readonly string[];
}

const slowMs = 1000;

export async function fuzzRun(requests: number, seed: number, progress?: (done: number) => void): Promise<FuzzFigures> {
  const { service: shop } = await plannedShop(shopDay("small-morning").planFrom);
  const byStatus: Record<string, number> = {};
  const faults: string[] = [];
  let slowestMs = 0;
  let slow = 0;
  try {
    let done = 0;
    for (const odd of fc.sample(oddRequest, { numRuns: requests, seed })) {
      const before = await revision(shop);
      const { status, ms, text, type } = await send(shop.address, odd);
      const said = `${odd.method} ${odd.path.slice(0, 80)} ${odd.body.toString().slice(0, 300)}: ${status} ${text.slice(0, 300)}`;
      byStatus[status] = (byStatus[status] ?? 0) + 1;
      slowestMs = Math.max(slowestMs, ms);
      if (ms > slowMs) slow++;
      if (status >= 500) faults.push(said);
      faults.push(...(await broken(shop, odd, { status, text, type })).map((fault) => `${fault}: ${said}`));
      if (/node_modules|\.ts:\d+|at async|SQLITE/.test(text)) faults.push(`tells too much: ${said}`);
      if (status >= 400 && (await revision(shop)) !== before)
        faults.push(`refused and yet something was saved: ${said}`);
      if (++done % 250 === 0) faults.push(...(await unsound(shop)));
      progress?.(done);
    }
    faults.push(...(await unsound(shop)));
    return { requests, byStatus, slowestMs: Math.round(slowestMs), slow, faults };
  } finally {
    await shop.stop();
  }
}

/** Where an answer is not as /openapi.json announces it, or holds a plan that is not sound. */
async function broken(shop: TestService, odd: OddRequest, { status, text, type }: Omit<Answered, "ms">) {
  // Of a stream only the head was read, and HEAD is answered by the head of GET (RFC 9110 § 9.3.2).
  if (type === "" || type.startsWith("text/event-stream") || odd.method === "HEAD") return [];
  try {
    const body: unknown = type.includes("json") ? JSON.parse(text) : undefined;
    shop.hold(odd.method, odd.path, { status, headers: new Headers({ "content-type": type }), text, body });
    if (status < 300) await shop.auditor.audit(odd.path, type, text);
    return [];
  } catch (error) {
    return [error instanceof Error ? error.message : String(error)];
  }
}

async function revision({ service }: TestService): Promise<string> {
  const { db } = service.store;
  const [shop] = await db.selectFrom("shop").select(["revision", "in_force"]).execute();
  const [event] = await db.selectFrom("event").select("id").orderBy("id", "desc").limit(1).execute();
  return `${shop?.revision}/${shop?.in_force}/${event?.id}`;
}

/** The day is still one that planning takes, every row and event is whole. */
async function unsound(shop: TestService): Promise<string[]> {
  const { db, raw } = shop.service.store;
  const faults: string[] = [];
  const { status, body } = await shop.ask("GET", "/day");
  if (status !== 200) faults.push(`the day cannot be read: ${status}`);
  const read = readDay(body);
  if (!read.ok) faults.push(`the day is not sound: ${read.problems[0]?.message}`);
  if ((await shop.ask("GET", "/loads")).status !== 200) faults.push("the loads cannot be read");
  if ((await shop.ask("GET", "/tickets")).status !== 200) faults.push("the tickets cannot be read");
  const events = await db.selectFrom("event").select(["id", "before"]).orderBy("id").execute();
  if (events.at(-1)?.id !== events.length) faults.push("the log has gaps");
  for (const { before } of events) JSON.parse(before);
  const integrity = raw.prepare("pragma integrity_check").all() as readonly { integrity_check: string }[];
  if (integrity[0]?.integrity_check !== "ok") faults.push("the file is damaged");
  return faults;
}

interface Answered {
  readonly status: number;
  readonly ms: number;
  readonly text: string;
  /** Its media type; empty where none came. */
  readonly type: string;
}

/** By node:http, because fetch refuses to send what an attacker would. A stream counts once its head is there. */
function send(address: string, { method, path, headers, body }: OddRequest): Promise<Answered> {
  const { hostname, port } = new URL(address);
  const began = performance.now();
  return new Promise((resolve, reject) => {
    const length = { "Content-Length": String(body.length) };
    const asked = request({ host: hostname, port, method, path, headers: { ...headers, ...length } }, (response) => {
      const parts: Buffer[] = [];
      const end = (): void =>
        resolve({
          status: response.statusCode ?? 0,
          ms: performance.now() - began,
          text: Buffer.concat(parts).toString(),
          type: response.headers["content-type"] ?? "",
        });
      if (response.headers["content-type"]?.startsWith("text/event-stream")) {
        end();
        asked.destroy();
      }
      response.on("data", (part: Buffer) => parts.push(part));
      response.on("end", end);
      response.on("error", reject);
    });
    asked.on("error", (error) => {
      // Too much is refused before it is read to its end.
      if ("code" in error && (error.code === "EPIPE" || error.code === "ECONNRESET"))
        resolve({ status: 413, ms: performance.now() - began, text: "", type: "" });
      else reject(error);
    });
    asked.end(body);
  });
}
