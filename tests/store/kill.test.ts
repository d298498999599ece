import { spawn } from "node:child_process";
import type { ChildProcess } from "node:child_process";
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { backUp, exportDay, importDay, restoreFrom } from "../../api/store/commands.ts";
import { openFile } from "../../api/store/database.ts";
import { FileInUse, takeFile } from "../../api/store/one-writer.ts";
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

interface Server {
  readonly process: ChildProcess;
  readonly address: string;
}

/** The real server in a process of its own. */
function server(path: string): Promise<Server> {
  const main = new URL("../../api/main.ts", import.meta.url).pathname;
  const child = spawn(process.execPath, ["--import", "tsx", main], {
    env: { ...process.env, OVENFUL_DB: path, OVENFUL_PORT: "0", OVENFUL_HOST: "127.0.0.1", OVENFUL_LOG: "silent" },
    stdio: ["ignore", "pipe", "pipe"],
  });
  return new Promise((resolve, reject) => {
    let said = "";
    child.stdout.on("data", (part: Buffer) => {
      said += part.toString();
      const address = /is at (\S+) and/.exec(said)?.[1];
      if (address !== undefined) resolve({ process: child, address });
    });
    let complained = "";
    child.stderr.on("data", (part: Buffer) => (complained += part.toString()));
    child.on("exit", () => reject(new Error(complained)));
  });
}

function ended(child: ChildProcess): Promise<number | null> {
  return new Promise((resolve) =>
    child.exitCode !== null || child.signalCode !== null ? resolve(child.exitCode) : child.on("exit", resolve),
  );
}

describe("a server killed while people write", () => {
  it("has every acknowledged write in its file and no half event", { timeout: 120_000 }, async () => {
    await importDay(file, dayFile, clock);
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

  it("asked to stop, answers what it accepted and leaves", { timeout: 90_000 }, async () => {
    await importDay(file, dayFile, clock);
    const { process: child, address } = await server(file);
    const asked = fetch(`${address}/plans`, {
      method: "POST",
      headers: { "Content-Type": "application/json" },
      body: JSON.stringify({ seconds: 30 }),
    });
    await new Promise((resolve) => setTimeout(resolve, 200));
    child.kill("SIGTERM");
    expect((await asked).status).toBe(202);
    expect(await ended(child)).toBe(0);
  });
});

describe("the file", () => {
  it("has one server at a time, and a second one says so and leaves", { timeout: 90_000 }, async () => {
    await importDay(file, dayFile, clock);
    const giveBack = takeFile(file);
    expect(() => takeFile(file)).toThrow(FileInUse);
    await expect(server(file)).rejects.toThrow(/Another Ovenful server works on/);
    giveBack();
    takeFile(file)();
  });

  it("refuses to change or drop an event, and values of the wrong type", async () => {
    await importDay(file, dayFile, clock);
    const { raw, close } = openFile(file);
    expect(() => raw.exec("update event set who = 'somebody else'")).toThrow(/only added/);
    expect(() => raw.exec("delete from event")).toThrow(/only added/);
    expect(() => raw.exec("update pan set version = 'new'")).toThrow();
    expect(() => raw.exec("update pan set body = '{half'")).toThrow();
    await close();
  });

  it("is copied while in use, and put back", async () => {
    await importDay(file, dayFile, clock);
    const copy = join(folder, "copy.db");
    const open = openFile(file);
    backUp(file, copy);
    await open.close();
    const before = await exportDay(file);
    await importDay(file, new URL("../../fixtures/shops/full-day.json", import.meta.url).pathname, clock);
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
