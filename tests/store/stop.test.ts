import { mkdtempSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { importDay } from "../../api/store/commands.ts";
import { openFile } from "../../api/store/database.ts";
import { takeFile } from "../../api/store/one-writer.ts";
import { descendants, ended, isAlive, server } from "../help/server.ts";
import { shopDay } from "../help/service.ts";

const clock = { now: () => Date.parse("2026-06-09T07:00:00Z") };
const dayFile = readFileSync(new URL("../../fixtures/shops/small-morning.json", import.meta.url));
let folder: string;
let file: string;
beforeEach(async () => {
  folder = mkdtempSync(join(tmpdir(), "ovenful-"));
  file = join(folder, "shop.db");
  await importDay(file, "small-morning", dayFile, clock);
});
afterEach(() => rmSync(folder, { recursive: true, force: true }));

const json = { "Content-Type": "application/json" };

describe("a server asked to stop", () => {
  it.each([
    ["node", "SIGTERM"],
    ["npm start", "SIGTERM"],
    ["npm start", "Ctrl-C"],
  ] as const)(
    "%s, %s: answers what it accepted, keeps it, ends its searches and leaves",
    { timeout: 90_000 },
    async (by, signal) => {
      const { process: child, address } = await server(file, by);
      const search = await fetch(`${address}/plans`, {
        method: "POST",
        headers: json,
        body: JSON.stringify({ seconds: 60, gapPercent: 0 }),
      });
      expect(search.status).toBe(202);
      const family = [child.pid ?? 0, ...descendants(child.pid ?? 0)];
      const pan = shopDay("small-morning").pans[0]!;
      const asked = Array.from({ length: 20 }, async (_, i) => {
        const id = `STOP-${i}`;
        const reply = await fetch(`${address}/pans`, {
          method: "POST",
          headers: json,
          body: JSON.stringify({ pan: { ...pan, id, ticket: id } }),
        });
        return reply.status === 201 ? id : undefined;
      });
      // The first of them is in, the last may still be on its way: refused at the door or answered, never dropped half-way.
      await Promise.race(asked);
      if (signal === "Ctrl-C") process.kill(-(child.pid ?? 0), "SIGINT");
      else child.kill(signal);
      const answers = await Promise.allSettled(asked);
      const kept = answers.flatMap((one) => (one.status === "fulfilled" && one.value !== undefined ? [one.value] : []));
      const exit = await ended(child);
      expect(by === "node" ? exit : 0).toBe(0);
      // npm itself leaves at once; the service takes its time.
      for (let i = 0; i < 200 && family.some(isAlive); i++) await new Promise((resolve) => setTimeout(resolve, 50));
      expect(family.filter(isAlive)).toEqual([]);
      await expect(fetch(`${address}/health`)).rejects.toThrow();
      takeFile(file)();
      const { db, close } = openFile(file);
      const pans = (await db.selectFrom("pan").select("id").execute()).map(({ id }) => id);
      expect(kept.length).toBeGreaterThan(0);
      for (const id of kept) expect(pans).toContain(id);
      const [row] = await db.selectFrom("plan").select(["state", "plan"]).execute();
      expect(row?.plan === null ? "queued" : "stopped").toBe(row?.state);
      await close();
    },
  );

  it("begins with the next server what had not begun with this one", { timeout: 90_000 }, async () => {
    const one = await server(file);
    const ids = await Promise.all(
      [1, 2, 3].map(async (seed) => {
        const reply = await fetch(`${one.address}/plans`, {
          method: "POST",
          headers: json,
          body: JSON.stringify({ steps: 20, seconds: seed === 3 ? 30 : 60, seed, gapPercent: 0 }),
        });
        return ((await reply.json()) as { id: string }).id;
      }),
    );
    one.process.kill("SIGTERM");
    expect(await ended(one.process)).toBe(0);
    const next = await server(file);
    for (const id of ids) {
      let state = "queued";
      while (state === "queued" || state === "searching") {
        await new Promise((resolve) => setTimeout(resolve, 100));
        const answer = (await (await fetch(`${next.address}/plans/${id}`)).json()) as { state: string; plan: unknown };
        state = answer.state;
        if (state !== "queued" && state !== "searching") expect(answer.plan).not.toBeNull();
      }
    }
    next.process.kill("SIGTERM");
    expect(await ended(next.process)).toBe(0);
  });
});
