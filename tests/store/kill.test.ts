import { mkdtempSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { backUp, exportDay, importDay, restoreFrom } from "../../api/store/commands.ts";
import { openFile } from "../../api/store/database.ts";
import { FileInUse, takeFile } from "../../api/store/one-writer.ts";
import { killRuns } from "../help/kill-runs.ts";
import { server } from "../help/server.ts";
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
  it("has every acknowledged write in its file and no half event", { timeout: 240_000 }, async () => {
    const { acknowledged, faults } = await killRuns({ kills: 2, seed: 11 });
    expect(faults).toEqual([]);
    expect(acknowledged).toBeGreaterThan(1);
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
