import { mkdtempSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { backUp, exportDay, importDay, restoreFrom } from "../../api/store/commands.ts";
import { openFile } from "../../api/store/database.ts";
import { FileInUse, takeFile } from "../../api/store/one-writer.ts";
import { ended, server } from "../help/server.ts";
import { shopDay } from "../help/service.ts";

const clock = { now: () => Date.parse("2026-06-09T07:00:00Z") };
const dayFile = new URL("../../fixtures/shops/small-morning.json", import.meta.url).pathname;
let folder: string;
let file: string;
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), "ovenful-"));
  file = join(folder, "shop.db");
});
afterEach(() => rmSync(folder, { recursive: true, force: true }));

async function putFixture(name: string): Promise<void> {
  await importDay(file, name, readFileSync(new URL(`../../fixtures/shops/${name}.json`, import.meta.url)), clock);
}

describe("a server killed while people write", () => {
  it("has every acknowledged write in its file and no half event", { timeout: 120_000 }, async () => {
    await putFixture("small-morning");
    const pan = shopDay("small-morning").pans[0]!;
    const acknowledged = new Set<string>();
    let number = 0;
    for (const afterMs of [53, 0]) {
      const { process: child, address } = await server(file);
      let running = true;
      const writer = async (): Promise<void> => {
        while (running) {
          const id = `KILL-${++number}`;
          const body = JSON.stringify({ pan: { ...pan, id, ticket: id } });
          try {
            const reply = await fetch(`${address}/pans`, {
              method: "POST",
              headers: { "Content-Type": "application/json" },
              body,
            });
            if (reply.status === 201) acknowledged.add(id);
          } catch {
            return;
          }
        }
      };
      const writers = Array.from({ length: 8 }, writer);
      const before = acknowledged.size;
      while (acknowledged.size < before + 10) await new Promise((resolve) => setTimeout(resolve, 5));
      await new Promise((resolve) => setTimeout(resolve, afterMs));
      child.kill("SIGKILL");
      await ended(child);
      running = false;
      await Promise.all(writers);
    }
    expect(acknowledged.size).toBeGreaterThan(0);
    const { db, raw, close } = openFile(file);
    expect(raw.prepare("pragma integrity_check").all()).toMatchObject([{ integrity_check: "ok" }]);
    const pans = new Set((await db.selectFrom("pan").select("id").execute()).map(({ id }) => id));
    for (const id of acknowledged) expect(pans.has(id), id).toBe(true);
    // A pan and its event are one transaction: neither stands without the other.
    const events = await db.selectFrom("event").select("subject").where("kind", "=", "pan-added").execute();
    expect(new Set(events.map(({ subject }) => subject))).toEqual(
      new Set([...pans].filter((id) => id.startsWith("KILL-"))),
    );
    await close();
  });
});

describe("the file", () => {
  it("has one server at a time, and a second one says so and leaves", { timeout: 90_000 }, async () => {
    await putFixture("small-morning");
    const giveBack = takeFile(file);
    expect(() => takeFile(file)).toThrow(FileInUse);
    await expect(server(file)).rejects.toThrow(/Another Ovenful server works on/);
    giveBack();
    takeFile(file)();
  });

  it("refuses to change or drop an event, and values of the wrong type", async () => {
    await putFixture("small-morning");
    const { raw, close } = openFile(file);
    expect(() => raw.exec("update event set who = 'somebody else'")).toThrow(/only added/);
    expect(() => raw.exec("delete from event")).toThrow(/only added/);
    expect(() => raw.exec("update pan set version = 'new'")).toThrow();
    expect(() => raw.exec("update pan set body = '{half'")).toThrow();
    await close();
  });

  it("is copied while in use, and put back", async () => {
    await putFixture("small-morning");
    const copy = join(folder, "copy.db");
    const open = openFile(file);
    backUp(file, copy);
    await open.close();
    const before = await exportDay(file);
    await putFixture("full-day");
    expect(await exportDay(file)).not.toBe(before);
    const kept = restoreFrom(file, copy, clock);
    expect(await exportDay(file)).toBe(before);
    expect(JSON.parse(before)).toEqual(shopDay("small-morning"));
    expect(kept).not.toBeNull();
    expect(() => restoreFrom(file, dayFile, clock)).toThrow(/no Ovenful file/);
    expect(() => backUp(file, copy)).toThrow(/there already/);
  });

  it("of a newer program is left alone", () => {
    const { raw } = openFile(file);
    raw.exec("pragma user_version = 99");
    raw.close();
    expect(() => openFile(file)).toThrow(/newer Ovenful/);
  });
});
