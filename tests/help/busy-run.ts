/** A busy shop: many clients read, write and watch for a while, with two searches under way all the time. */
import { chance } from "./day-chance.ts";
import type { Chance } from "./day-chance.ts";
import { shopDay, testService } from "./service.ts";
import type { TestService } from "./service.ts";

export interface BusyWish {
  readonly clients: number;
  readonly seconds: number;
}

export interface BusyFigures {
  readonly reads: number;
  readonly writes: number;
  /** Improvements and changes told to those who watch. */
  readonly told: number;
  readonly readP50Ms: number;
  readonly readP99Ms: number;
  readonly writeP99Ms: number;
  /** Processor time of service and clients together. */
  readonly cpuMsPerRequest: number;
  readonly faults: readonly string[];
}

/** Of ten clients one watches, two write now and then. */
const reading = ["/day", "/pans", "/tickets", "/loads", "/prices", "/plans", "/plans/in-force", "/health"] as const;

interface Tally {
  readonly reads: number[];
  readonly writes: number[];
  readonly faults: string[];
  /** Answers in JSON and what was streamed, to be held against the contract and audited. */
  readonly answers: Map<string, { readonly method: string; readonly path: string; readonly status: number }>;
  readonly streams: Map<string, string>;
  told: number;
}

export async function busyRun({ clients, seconds }: BusyWish): Promise<BusyFigures> {
  const day = shopDay("full-day");
  const shop = await testService({ now: day.planFrom });
  const tally: Tally = { reads: [], writes: [], faults: [], answers: new Map(), streams: new Map(), told: 0 };
  try {
    await shop.ask("PUT", "/day", { body: day });
    const first = await shop.ask("POST", "/plans", { body: { steps: 20, seconds: 60 } });
    await shop.finished(first.body.id);
    await shop.ask("POST", `/plans/${first.body.id}/accept`, { body: {} });
    const searches = await Promise.all(
      [1, 2].map((seed) => shop.ask("POST", "/plans", { body: { seconds: seconds + 120, seed, gapPercent: 0 } })),
    );
    const ids = searches.map(({ body }) => body.id as string);
    const until = performance.now() + seconds * 1000;
    const cpuBefore = process.cpuUsage();
    const leave = new AbortController();
    const watching = Array.from({ length: Math.ceil(clients / 10) }, (_, i) =>
      watch(`${shop.address}${i % 2 === 0 ? `/plans/${ids[0]}/events` : "/changes"}`, tally, leave.signal),
    );
    const others = Array.from({ length: clients - watching.length }, (_, i) =>
      client(shop, chance(1000 + i), i % 5 === 0, until, tally),
    );
    await Promise.all(others);
    const cpu = process.cpuUsage(cpuBefore);
    for (const id of ids) {
      const { body } = await shop.ask("GET", `/plans/${id}`);
      if (body.state !== "searching") tally.faults.push(`search ${id} was ${body.state} before the end`);
      if ((await shop.ask("DELETE", `/plans/${id}`)).status !== 200) tally.faults.push(`search ${id} did not stop`);
    }
    leave.abort();
    await Promise.all(watching);
    // Once nobody measures any more.
    for (const [text, { method, path, status }] of tally.answers) {
      const headers = new Headers({ "content-type": "application/json" });
      if (status < 400) shop.hold(method, path, { status, headers, text, body: JSON.parse(text) as unknown });
      await shop.auditor.audit(path, "application/json", text);
    }
    for (const [text, path] of tally.streams) await shop.auditor.audit(path, "text/event-stream", text);
    const { reads, writes, faults, told } = tally;
    const figures = { readP50Ms: share(reads, 0.5), readP99Ms: share(reads, 0.99), writeP99Ms: share(writes, 0.99) };
    const cpuMsPerRequest = (cpu.user + cpu.system) / 1000 / Math.max(1, reads.length + writes.length);
    return { reads: reads.length, writes: writes.length, told, ...figures, cpuMsPerRequest, faults };
  } finally {
    await shop.stop();
  }
}

async function client(shop: TestService, draw: Chance, writes: boolean, until: number, tally: Tally): Promise<void> {
  const pan = shopDay("full-day").pans[0];
  for (let round = 0; performance.now() < until; round++) {
    await new Promise((resolve) => setTimeout(resolve, draw.whole(50, 450)));
    const init = (body: unknown): RequestInit => ({
      method: "POST",
      body: JSON.stringify(body),
      headers: { "Content-Type": "application/json" },
    });
    if (writes && round % 3 === 0) {
      const id = `B-${Math.round(draw.whole(1, 1e9))}-${round}`;
      const reading = { oven: shopDay("full-day").ovens[0]?.id, chamberC: 200 };
      const [path, body] =
        round % 2 === 0 ? ["/readings", reading] : ["/pans", { pan: { ...pan, id, ticket: id, quantity: 1 } }];
      await timed(shop.address + path, tally, tally.writes, init(body));
    } else await timed(shop.address + draw.oneOf(reading), tally, tally.reads);
  }
}

async function timed(url: string, tally: Tally, into: number[], init: RequestInit = {}): Promise<void> {
  const began = performance.now();
  try {
    const reply = await fetch(url, init);
    const text = await reply.text();
    into.push(performance.now() - began);
    const { pathname } = new URL(url);
    if (reply.headers.get("content-type")?.includes("json"))
      tally.answers.set(text, { method: init.method ?? "GET", path: pathname, status: reply.status });
    if (!reply.ok) tally.faults.push(`${init.method ?? "GET"} ${new URL(url).pathname}: ${reply.status}`);
  } catch (error) {
    tally.faults.push(`${init.method ?? "GET"} ${new URL(url).pathname}: ${String(error)}`);
  }
}

async function watch(url: string, tally: Tally, signal: AbortSignal): Promise<void> {
  let said = "";
  try {
    const reply = await fetch(url, { signal });
    if (reply.status !== 200 || reply.body === null) tally.faults.push(`${url}: ${reply.status}`);
    else
      for await (const part of reply.body.pipeThrough(new TextDecoderStream())) {
        tally.told += part.match(/^event: /gm)?.length ?? 0;
        said += part;
      }
  } catch (error) {
    if (!signal.aborted) tally.faults.push(`${url}: ${String(error)}`);
  }
  // What was being said when the line was cut is left out.
  tally.streams.set(said.slice(0, said.lastIndexOf("\n\n") + 2), new URL(url).pathname);
}

function share(list: readonly number[], of: number): number {
  const sorted = list.toSorted((a, b) => a - b);
  return Math.round(sorted[Math.min(sorted.length - 1, Math.floor(sorted.length * of))] ?? 0);
}
