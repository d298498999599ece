/** A server killed again and again while people write; after each kill the file is held to what was acknowledged. */
import { mkdtempSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import type { DayFile } from "../../api/contract/day.ts";
import { importDay } from "../../api/store/commands.ts";
import { openFile } from "../../api/store/database.ts";
import { auditor } from "./audit-plans.ts";
import { chance } from "./day-chance.ts";
import type { Chance } from "./day-chance.ts";
import { ended, server } from "./server.ts";
import type { Server } from "./server.ts";

export interface KillFigures {
  readonly kills: number;
  readonly acknowledged: number;
  /** Sent and never answered. */
  readonly open: number;
  /** What the file did not keep to, in sentences. */
  readonly faults: readonly string[];
}

const dayFile = readFileSync(new URL("../../fixtures/shops/small-morning.json", import.meta.url));
const day = JSON.parse(dayFile.toString("utf8")) as DayFile;
const json = { "Content-Type": "application/json" };
const writers = 8;
const longestMs = 400;

interface Written {
  /** Acknowledged new pans, and all those sent. */
  readonly pans: Set<string>;
  readonly sent: Set<string>;
  /** Numbers of acknowledged events. */
  readonly events: Set<number>;
  /** Ids of acknowledged searches. */
  readonly plans: Set<string>;
  /** Answers of searches since the last kill: the plans in them are audited. */
  readonly answers: string[];
  open: number;
}

export interface KillWish {
  readonly kills: number;
  readonly seed: number;
  /** Starts the server on a file; default: in the way of the tests. */
  readonly start?: (file: string) => Promise<Server>;
  readonly progress?: (kill: number) => void;
}

export async function killRuns({ kills, seed, start = server, progress }: KillWish): Promise<KillFigures> {
  const folder = mkdtempSync(join(tmpdir(), "ovenful-"));
  const file = join(folder, "shop.db");
  const draw = chance(seed);
  const none = (): Set<string> => new Set();
  const written: Written = { pans: none(), sent: none(), events: new Set(), plans: none(), answers: [], open: 0 };
  const faults: string[] = [];
  try {
    await importDay(file, "small-morning", dayFile, { now: () => Date.parse("2026-06-09T07:00:00Z") });
    for (let kill = 1; kill <= kills; kill++) {
      const { process: child, address } = await start(file);
      const running = { on: true, first: undefined as (() => void) | undefined };
      const first = new Promise<void>((resolve) => (running.first = resolve));
      const all = Array.from({ length: writers }, (_, i) =>
        write(address, running, written, chance(seed + 31 * kill + i)),
      );
      await first;
      await new Promise((resolve) => setTimeout(resolve, draw.whole(0, longestMs)));
      child.kill("SIGKILL");
      await ended(child);
      running.on = false;
      await Promise.all(all);
      for (const fault of await faultsOf(file, written)) faults.push(`kill ${kill}: ${fault}`);
      progress?.(kill);
    }
    return {
      kills,
      acknowledged: written.pans.size + written.events.size + written.plans.size,
      open: written.open,
      faults,
    };
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

interface Running {
  on: boolean;
  first: (() => void) | undefined;
}

/** One person who writes one thing after the other until the line is dead. */
async function write(address: string, running: Running, written: Written, draw: Chance): Promise<void> {
  while (running.on) {
    const id = `K-${written.sent.size + 1}`;
    written.sent.add(id);
    try {
      const kind = draw.byShare([
        [10, "pan"],
        [3, "event"],
        [2, "prices"],
        [0.2, "plan"],
      ] as const);
      if (kind === "pan") {
        const pan = { ...day.pans[0], id, ticket: id, quantity: 1 };
        const reply = await post(address, "/pans", { pan }, id);
        if (reply.status === 201) written.pans.add(id);
      } else if (kind === "event") {
        const pan = draw.oneOf([...written.pans, day.pans[0]?.id ?? ""]);
        const reply = await post(address, "/events", { kind: "pan-ready", pan, prepMinutes: draw.whole(0, 30) }, id);
        const body = (await reply.json()) as { event?: number };
        if (reply.status === 201 && body.event !== undefined) written.events.add(body.event);
      } else if (kind === "prices") {
        const read = await fetch(`${address}/prices`);
        const tag = read.headers.get("etag") ?? "";
        const value = { ...day.prices, gasPerKWh: draw.whole(5, 40) / 100 };
        const init = { method: "PUT", headers: { ...json, "If-Match": tag }, body: JSON.stringify({ value }) };
        const reply = await fetch(`${address}/prices`, init);
        const body = (await reply.json()) as { event?: number };
        if (reply.status === 200 && body.event !== undefined) written.events.add(body.event);
      } else {
        const reply = await post(address, "/plans", { steps: 1, seconds: 5 }, id);
        const text = await reply.text();
        const body = JSON.parse(text) as { id?: string };
        if (reply.status === 202 && body.id !== undefined) {
          written.plans.add(body.id);
          written.answers.push(text);
        }
      }
      running.first?.();
    } catch {
      written.open++;
      return;
    }
  }
}

function post(address: string, path: string, body: unknown, key: string): Promise<Response> {
  const headers = { ...json, "Idempotency-Key": key };
  return fetch(address + path, { method: "POST", headers, body: JSON.stringify(body) });
}

/** Opens the file as the next server would. */
async function faultsOf(file: string, written: Written): Promise<string[]> {
  const { db, raw, close } = openFile(file);
  try {
    const faults: string[] = [];
    const sound = raw.prepare("pragma integrity_check").all() as readonly { integrity_check: string }[];
    if (sound[0]?.integrity_check !== "ok") faults.push("the file is damaged");
    const pans = new Set((await db.selectFrom("pan").select("id").execute()).map(({ id }) => id));
    const events = await db.selectFrom("event").select(["id", "kind", "subject", "before"]).orderBy("id").execute();
    const plans = new Set((await db.selectFrom("plan").select("id").execute()).map(({ id }) => id));
    const added = new Set(events.flatMap(({ kind, subject }) => (kind === "pan-added" ? [subject] : [])));
    const ids = new Set(events.map(({ id }) => id));
    for (const id of written.pans)
      if (!pans.has(id) || !added.has(id)) faults.push(`pan ${id} was acknowledged and is not there`);
    for (const id of written.events) if (!ids.has(id)) faults.push(`event ${id} was acknowledged and is not there`);
    for (const id of written.plans) if (!plans.has(id)) faults.push(`search ${id} was acknowledged and is not there`);
    // A pan and its event are one transaction: neither stands without the other.
    for (const id of pans)
      if (id.startsWith("K-") && written.sent.has(id) && !added.has(id)) faults.push(`pan ${id} has no event`);
    for (const id of added) if (!pans.has(id)) faults.push(`the event of pan ${id} has no pan`);
    if (events.length !== ids.size || events.at(-1)?.id !== events.length) faults.push("the log has gaps");
    const { audit } = auditor(async (id) => {
      const [row] = await db.selectFrom("plan").select("day").where("id", "=", id).execute();
      return { day: JSON.parse(row?.day ?? "null"), wishes: {} };
    });
    for (const text of written.answers.splice(0))
      await audit("/plans", "application/json", text).catch((error: unknown) => faults.push(String(error)));
    const bare = events.filter(({ before }) => (JSON.parse(before) as unknown[]).length === 0);
    if (bare.length > 0) faults.push(`${bare.length} events changed nothing`);
    return faults;
  } finally {
    await close();
  }
}
