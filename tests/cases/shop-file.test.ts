/** The shop's file by the command line: real processes, a real file, a real service. */
import { spawn } from "node:child_process";
import { mkdtemp, readFile, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, beforeEach, describe, expect, it } from "vitest";
import { shopDay } from "../help/service.ts";

const root = join(import.meta.dirname, "../..");
const fixture = (name: string): string => join(root, "fixtures/shops", `${name}.json`);

let folder: string;
let file: string;
let turn = 0;
beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), "ovenful-file-"));
});
afterAll(async () => rm(folder, { recursive: true, force: true }));
beforeEach(() => {
  file = join(folder, `shop-${++turn}.db`);
});
const path = (name: string): string => join(folder, `${turn}-${name}`);

interface Ended {
  readonly code: number | null;
  readonly out: string;
  readonly err: string;
}

function start(args: readonly string[], more: Record<string, string> = {}) {
  const env = { ...process.env, OVENFUL_DB: file, OVENFUL_PORT: "0", OVENFUL_LOG: "silent", ...more };
  return spawn(process.execPath, ["--import", "tsx", join(root, "api/cli.ts"), ...args], { cwd: root, env });
}

function ovenful(args: readonly string[], more: { input?: string; env?: Record<string, string> } = {}): Promise<Ended> {
  return new Promise((resolve, reject) => {
    const child = start(args, more.env);
    let out = "";
    let err = "";
    child.stdout.setEncoding("utf8").on("data", (text: string) => (out += text));
    child.stderr.setEncoding("utf8").on("data", (text: string) => (err += text));
    child.on("error", reject);
    child.on("close", (code) => resolve({ code, out, err }));
    child.stdin.end(more.input ?? "");
  });
}

const done = { code: 0, err: "" };
const day = async (): Promise<unknown> => JSON.parse((await ovenful(["export"])).out);

describe("day files", { timeout: 120_000 }, () => {
  it.each(["small-morning", "two-ovens-two-days"])(
    "%s comes out as it went in, and the copy to the byte",
    async (name) => {
      expect(await ovenful(["import", fixture(name)])).toMatchObject(done);
      expect(await ovenful(["export", path("day.json")])).toMatchObject(done);
      const text = await readFile(path("day.json"), "utf8");
      expect(JSON.parse(text)).toEqual(JSON.parse(await readFile(fixture(name), "utf8")));
      expect(await ovenful(["import", "-"], { input: text })).toMatchObject(done);
      expect((await ovenful(["export"])).out).toBe(text);
    },
  );

  it("that are not sound change nothing, and every problem is told", async () => {
    await ovenful(["import", fixture("small-morning")]);
    const bad = shopDay("small-morning");
    const pans = bad.pans.map((pan, i) => (i < 2 ? { ...pan, massKg: -1 } : pan));
    await writeFile(path("bad.json"), JSON.stringify({ ...bad, pans }));
    const refused = await ovenful(["import", path("bad.json")]);
    expect(refused).toMatchObject({ code: 2, out: "" });
    expect(refused.err).toContain("pans[0].massKg");
    expect(refused.err).toContain("pans[1].massKg");
    expect(await day()).toEqual(shopDay("small-morning"));
  });
});

describe("tables of pans", { timeout: 120_000 }, () => {
  it("come out and go in again", async () => {
    const whole = shopDay("small-morning");
    await ovenful(["import", fixture("small-morning")]);
    expect(await ovenful(["export", path("pans.csv")])).toMatchObject(done);
    await ovenful(["import", "-"], { input: JSON.stringify({ ...whole, pans: [] }) });
    const added = await ovenful(["import", path("pans.csv")]);
    expect(added).toMatchObject({ ...done, out: `${whole.pans.length} pans added\n` });
    expect(await day()).toEqual(whole);
    expect((await ovenful(["export", "--pans"])).out).toBe(await readFile(path("pans.csv"), "utf8"));
  });

  it("with bad rows add none, and every one is told by its number: misspelt, unknown, too large, there already", async () => {
    await ovenful(["import", fixture("small-morning")]);
    const lines = (await ovenful(["export", "--pans"])).out.trim().split("\r\n");
    const fresh = (id: string): string => lines[1]!.replace(/^[^,]+,[^,]+/, `${id},${id}`);
    const bad = [
      lines[0],
      fresh("N-1"),
      fresh("N-2").replace(",disc,", ",disk,"),
      fresh("N-3").replace("two-coat", "three-coat"),
      fresh("N-4").replace(",disc,20,", ",disc,200,"),
      lines[1],
      fresh("N-1"),
    ].join("\r\n");
    const refused = await ovenful(["import", "-", "--pans"], { input: bad });
    expect(refused).toMatchObject({ code: 2, out: "" });
    const told = new Set([...refused.err.matchAll(/^ {2}row (\d+)/gm)].map(([, row]) => Number(row)));
    expect([...told]).toEqual([3, 4, 5, 6, 7]);
    expect(await day()).toEqual(shopDay("small-morning"));
  });
});

describe("a copy", { timeout: 120_000 }, () => {
  it("is put back, and what stood there before is kept", async () => {
    await ovenful(["import", fixture("small-morning")]);
    expect(await ovenful(["backup", path("copy.db")])).toMatchObject(done);
    expect(await ovenful(["backup", path("copy.db")])).toMatchObject({ code: 2, out: "" });
    await ovenful(["import", fixture("full-day")]);
    const restored = await ovenful(["restore", path("copy.db")]);
    expect(restored).toMatchObject(done);
    expect(await day()).toEqual(shopDay("small-morning"));
    file = /kept in (\S+)/.exec(restored.out)![1]!;
    expect(await day()).toEqual(shopDay("full-day"));
  });
});

describe("serve", { timeout: 120_000 }, () => {
  it("serves page and API, lets nobody write beside it, is copied meanwhile, and leaves when told", async () => {
    await ovenful(["import", fixture("small-morning")]);
    const child = start(["serve"]);
    const ended = new Promise((resolve) => child.on("close", resolve));
    const address = await new Promise<string>((resolve, reject) => {
      let said = "";
      child.stdout.on("data", (part: Buffer) => {
        said += part.toString();
        const found = /is at (\S+) and/.exec(said)?.[1];
        if (found !== undefined) resolve(found);
      });
      child.on("close", () => reject(new Error(said)));
    });
    expect(await (await fetch(`${address}/health`)).json()).toMatchObject({ status: "ok" });
    expect(await (await fetch(`${address}/`)).text()).toContain("<html");
    const beside = await ovenful(["import", fixture("full-day")]);
    expect(beside).toMatchObject({ code: 2, out: "" });
    expect(beside.err).toMatch(/^Another Ovenful server works on .+\n$/);
    expect(await ovenful(["restore", fixture("full-day")])).toMatchObject({ code: 2 });
    expect(await ovenful(["backup", path("copy.db")])).toMatchObject(done);
    child.kill("SIGTERM");
    expect(await ended).toBe(0);
    file = path("copy.db");
    expect(await day()).toEqual(shopDay("small-morning"));
  });
});

describe("what cannot be done", { timeout: 60_000 }, () => {
  it.each([
    ["no file yet", ["export"], /^There is no file .+\n$/],
    ["no such copy", ["restore", "no-such-copy.db"], /^There is no file .+\n$/],
    ["a copy that is none", ["restore", fixture("full-day")], /^.+ is no Ovenful file\.\n$/],
    ["no such day", ["import", "no-such-day.json"], /^no-such-day\.json cannot be read: there is no such file\.\n$/],
    ["pans before a shop", ["import", "-", "--pans"], /^No shop is set up yet: put a day file first\.\n$/],
  ])("%s: one line, exit code 2", async (_what, args, line) => {
    const { code, out, err } = await ovenful(args);
    expect({ code, out }).toEqual({ code: 2, out: "" });
    expect(err).toMatch(line);
  });

  it.each([
    ["a folder", () => folder],
    ["a file of another kind", () => fixture("full-day")],
  ])("%s in the place of the shop's file: one line, exit code 2", async (_what, other) => {
    const { code, err } = await ovenful(["export"], { env: { OVENFUL_DB: other() } });
    expect(code).toBe(2);
    expect(err).toMatch(/^The shop's file cannot be used: .+\n$/);
  });
});
