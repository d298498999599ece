/** Any plan can be made again: searched by the clock, with a second process at work, stopped or not, byte for byte. */
import { execFile } from "node:child_process";
import { promisify } from "node:util";
import { mkdtempSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import type { DayFile } from "../../api/contract/day.ts";
import type { Course } from "../../api/planning/course.ts";
import { unpackCourse } from "../../api/planning/course.ts";
import { remade } from "../../api/plans/remake.ts";
import { keptPlan } from "../../api/store/commands.ts";
import { openFile, openRaw } from "../../api/store/database.ts";
import { migrate, versionOf } from "../../api/store/migrate.ts";
import type { PlanRow } from "../../api/store/tables.ts";
import { version } from "../../api/version.ts";
import { generatedDay } from "../help/days.ts";
import { shopDay, testService } from "../help/service.ts";
import type { TestService } from "../help/service.ts";

/** A search is made again twice in the time that it took, which is long where the other process finds something late. */
const PATIENCE = { timeout: 480_000 };

let shop: TestService;
beforeAll(async () => {
  shop = await testService({ now: "2026-06-09T05:00:00Z" });
}, 60_000);
afterAll(() => shop.stop(), 60_000);

async function asked(day: string | DayFile, wish: object): Promise<string> {
  const body = typeof day === "string" ? shopDay(day) : day;
  expect((await shop.ask("PUT", "/day", { body })).status).toBe(200);
  return search(wish);
}

async function search(wish: object): Promise<string> {
  const { body, status } = await shop.ask("POST", "/plans", { body: { gapPercent: 0, ...wish } });
  expect(status).toBe(202);
  return body.id as string;
}

/** Of the best plan that the file holds by now. */
async function courseNow(id: string): Promise<Course | undefined> {
  const { course } = (await shop.ask("GET", `/plans/${id}/request`)).body;
  return course === null ? undefined : unpackCourse(Buffer.from(course, "base64"));
}

/** False where the search ended before the other process had found anything that was taken. */
async function isOffered(id: string): Promise<boolean> {
  for (;;) {
    // The state after the course: the last course tells of offers that no better plan came from, when nothing can be stopped.
    const course = await courseNow(id);
    const { state } = (await shop.ask("GET", `/plans/${id}`)).body;
    if (state !== "queued" && state !== "searching") return false;
    if (course !== undefined && course.offers.length > 0) return true;
    await new Promise((resolve) => setTimeout(resolve, 100));
  }
}

/** A search still going that has taken an offer: which of the two processes finds better first is chance. */
async function searchOffered(day: DayFile): Promise<string> {
  for (let seed = 1; seed <= 10; seed++) {
    const id = await asked(day, { seconds: 25, seed });
    if (await isOffered(id)) return id;
  }
  throw new Error("No search has taken an offer of the other process.");
}

const kept = (id: string): Promise<PlanRow> => keptPlan(shop.file, id);

describe("a plan searched by the clock", () => {
  it("that was stopped is made again to the byte, and so is the best it had on the way", PATIENCE, async () => {
    const overloaded = generatedDay({ pans: 40, ovens: 2, door: "hot", pace: "overloaded", seed: 2 });
    const id = await searchOffered(overloaded);
    const onTheWay = await kept(id);
    expect((await shop.ask("DELETE", `/plans/${id}`)).body.state).toBe("stopped");
    const row = await kept(id);
    const again = remade(row);
    expect(again.course.stoppedAt).toBeGreaterThan(0);
    expect(again.course.offers.length).toBeGreaterThan(0);
    expect(again.course.pauses).toBeNull();
    expect(JSON.stringify(again.plan)).toBe(row.plan);
    // As a service that was killed leaves it to the next one.
    const cutShort = remade({ ...onTheWay, state: "cut short" });
    expect(cutShort.course.pauses).toBeGreaterThan(0);
    expect(JSON.stringify(cutShort.plan)).toBe(onTheWay.plan);
    expect(cutShort.same && again.same).toBe(true);
  });

  it("that ran to its end with bounds proven beside it is made again to the byte", PATIENCE, async () => {
    // Few enough pans that the second process proves bounds; the proof, where it comes in time, ends the search.
    const few = generatedDay({ pans: 4, ovens: 1, door: "cold", pace: "calm", seed: 2, sprayers: 1 });
    const id = await asked(few, { seconds: 60 });
    const done = await shop.finished(id);
    const row = await kept(id);
    const again = remade(row);
    expect(done.state).toBe("done");
    expect(again.course.bounds.length).toBeGreaterThan(0);
    expect(again.course.pauses).toBeNull();
    expect(JSON.stringify(again.plan)).toBe(row.plan);
  });

  it("is not the same where the course is another", PATIENCE, async () => {
    const row = await kept(await asked("full-day", { seconds: 2 }));
    await shop.finished(row.id);
    const ended = await kept(row.id);
    expect(remade(ended).same).toBe(true);
    const other = JSON.stringify({ ...(JSON.parse(ended.request) as object), seed: 2 });
    expect(remade({ ...ended, request: other }).same).toBe(false);
  });
});

it("a plan by steps that the clock cut short is made again to the byte", PATIENCE, async () => {
  const id = await asked("full-day", { steps: 100_000_000, seconds: 2 });
  await shop.finished(id);
  const again = remade(await kept(id));
  expect(again.course.cutAt).toBeGreaterThan(0);
  expect(again.same).toBe(true);
});

describe("the command line", () => {
  const run = promisify(execFile);
  const remake = async (...args: string[]): Promise<{ stdout: string; code: number; stderr: string }> => {
    const env = { ...process.env, OVENFUL_DB: shop.file };
    const words = ["--import", "tsx", "api/cli.ts", "remake", ...args];
    try {
      return { ...(await run(process.execPath, words, { env })), code: 0 };
    } catch (error) {
      return error as { stdout: string; code: number; stderr: string };
    }
  };

  it("makes the plan of a closed day again, a job quoted and taken with it", PATIENCE, async () => {
    const id = await asked("small-morning", { seconds: 1 });
    await shop.finished(id);
    expect((await shop.ask("POST", `/plans/${id}/accept`, { body: {} })).status).toBe(200);
    const [pan] = shopDay("small-morning").pans;
    const job = { ...pan, id: "RUSH-1", ticket: "RUSH-1", quantity: 1, promisedAt: null };
    const quoted = await shop.ask("POST", "/quotes", { body: { pans: [job], seconds: 1 } });
    await shop.finished(quoted.body.id);
    expect((await shop.ask("POST", `/plans/${quoted.body.id}/accept`, { body: {} })).status).toBe(200);
    shop.setNow("2026-06-09T20:00:00Z");
    const closed = (await shop.ask("POST", "/day/close", { body: {} })).body;
    const { plans } = (await shop.ask("GET", `/days/${closed.id}`)).body;
    const out = join(mkdtempSync(join(tmpdir(), "ovenful-")), "plan.json");
    const told = await remake(plans.at(-1).id, "--out", out);
    expect(told).toMatchObject({ code: 0, stderr: "" });
    expect(told.stdout).toContain("the same to the byte");
    // What comes out is what was handed out, with the promise given.
    expect(JSON.parse(readFileSync(out, "utf8"))).toEqual(plans.at(-1).planFile);
    rmSync(join(out, ".."), { recursive: true });
    for (const { course } of plans) expect(unpackCourse(Buffer.from(course, "base64")).ticks.length).toBeGreaterThan(0);
  });

  it("says which version made a plan that it cannot make again", PATIENCE, async () => {
    const id = (await shop.ask("GET", "/plans")).body.plans[0].id;
    const file = openFile(shop.file);
    await file.db.updateTable("plan").set({ version: "0.0.7" }).where("id", "=", id).execute();
    await file.db.destroy();
    const told = await remake(id);
    expect(told).toMatchObject({ code: 2, stdout: "" });
    expect(told.stderr).toContain(`made by Ovenful 0.0.7 and this is ${version}`);
    expect(await remake("p-none")).toMatchObject({ code: 2, stderr: expect.stringContaining("no plan p-none") });
  });
});

it("a file of the first version is taken over whole; its plans are read, and said to have no course", async () => {
  const folder = mkdtempSync(join(tmpdir(), "ovenful-"));
  try {
    const path = join(folder, "old.db");
    const raw = openRaw(path);
    migrate(raw, 1);
    raw.exec(`insert into plan (id, kind, state, made_at, revision, day, request, version, plan, seconds, extra)
      values ('p-old', 'plan', 'done', '2026-06-09T05:00:00Z', 1, '{}', '{}', '${version}', '{}', 1, '{}')`);
    raw.close();
    const row = await keptPlan(path, "p-old");
    expect(row).toMatchObject({ id: "p-old", state: "done", plan: "{}", course: null });
    expect(() => remade(row)).toThrow("did not yet write down the course");
    const after = openRaw(path);
    expect(versionOf(after)).toBe(2);
    // Strict: the column takes bytes and nothing else.
    expect(() => after.exec("update plan set course = 'text'")).toThrow(/TEXT value in BLOB column/);
    after.close();
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
});
