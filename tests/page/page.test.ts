/** The built page over the real service in a real browser: what it shows is what the plan says. */
import { readFileSync, readdirSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { gzipSync } from "node:zlib";
import type { Browser, Page } from "playwright-core";
import { build } from "vite";
import { afterAll, beforeAll, describe, expect, it, vi } from "vitest";
import type { SearchAnswer } from "../../api/contract/searching.ts";
import { openBrowser } from "../help/browser.ts";
import { shopDay, testService } from "../help/service.ts";
import type { TestService } from "../help/service.ts";

const web = fileURLToPath(new URL("../../web/", import.meta.url));
const axe = readFileSync(fileURLToPath(import.meta.resolve("axe-core/axe.min.js")), "utf8");
const clockOf = (instant: string): string => instant.slice(11, 16);

// A busy machine opens pages slowly.
vi.setConfig({ testTimeout: 20_000 });

let browser: Browser;
let service: TestService;
let search: SearchAnswer;

beforeAll(async () => {
  await build({ root: web, configFile: `${web}vite.config.ts`, logLevel: "error" });
  browser = await openBrowser();
  service = await testService({ now: "2026-06-09T06:00:00Z" });
  expect((await service.ask("PUT", "/day", { body: shopDay("small-morning") })).status).toBe(200);
  const started = await service.ask("POST", "/plans", { body: { seconds: 20, steps: 60 } });
  search = await service.finished(started.body.id);
  expect((await service.ask("POST", `/plans/${search.id}/accept`, { body: {} })).status).toBe(200);
}, 40_000);

afterAll(async () => {
  await browser?.close();
  await service?.stop();
});

interface Opened {
  readonly page: Page;
  readonly complaints: string[];
}

async function opened(hash: string, width = 1280, colorScheme: "light" | "dark" = "light"): Promise<Opened> {
  const page = await browser.newPage({ viewport: { width, height: 900 }, colorScheme });
  const complaints: string[] = [];
  page.on("console", (message) => {
    if (message.type() === "error" || message.type() === "warning") complaints.push(message.text());
  });
  page.on("pageerror", (error) => complaints.push(String(error)));
  await page.clock.setFixedTime("2026-06-09T07:00:00Z");
  await page.goto(`${service.address}/${hash}`);
  await page.waitForSelector("h1");
  await page.waitForSelector(hash.includes("pans") ? "form" : "dl, .next");
  const shots = process.env["SHOTS"];
  if (shots)
    await page.screenshot({
      path: `${shots}/${hash.replace(/\W/g, "") || "day"}-${width}-${colorScheme}.png`,
      fullPage: true,
    });
  return { page, complaints };
}

/** What the accessibility checker finds, as "rule: element". */
async function barriers(page: Page): Promise<string[]> {
  // As an expression: the page's content policy keeps added scripts out.
  await page.evaluate(`${axe};0`);
  return page.evaluate(
    "axe.run({runOnly:['wcag2a','wcag2aa','wcag21a','wcag21aa','wcag22aa']}).then(({violations}) => violations.flatMap((one) => one.nodes.map((node) => one.id + ': ' + node.html.slice(0, 120))))",
  );
}

describe("the day", () => {
  it("shows set-point, door and burner-off window of every load as the plan has them", async () => {
    const { page, complaints } = await opened("");
    const plan = search.plan;
    expect(plan?.loads.length).toBeGreaterThan(1);
    const rows = await page.locator("table", { hasText: "Earliest burner off" }).locator("tbody tr").allInnerTexts();
    const cells = rows.map((row) => row.split("\t").map((cell) => cell.trim()));
    expect(cells.map(([id]) => id)).toEqual(plan?.loads.map(({ id }) => id));
    for (const [i, load] of (plan?.loads ?? []).entries()) {
      const off = Date.parse(load.burnerOffAt ?? "");
      const zone = Date.parse(`${load.burnerOffAt?.slice(0, 19)}Z`) - off;
      const shown = (minutes: number): string => new Date(off + zone + minutes * 60_000).toISOString().slice(11, 16);
      expect(cells[i]?.slice(3)).toEqual([
        `${load.setPointC} °C`,
        clockOf(load.doorOpensAt),
        shown(-1),
        shown(load.slackMinutes ?? 0),
        clockOf(load.unloadAt),
        String(load.pans.length),
        `${load.gasKWh.toFixed(1)} kWh`,
      ]);
    }
    expect(complaints).toEqual([]);
    await page.close();
  });

  it("shows the gas, what both habits would burn, and how good the plan is", async () => {
    const { page } = await opened("");
    const text = await page.locator("main").innerText();
    const { gas } = search.plan ?? { gas: { kWh: NaN, comparedWith: [] } };
    expect(text).toContain(`${gas.kWh.toFixed(1)} kWh`);
    expect(gas.comparedWith).toHaveLength(2);
    for (const habit of gas.comparedWith) expect(text).toContain(`${habit.savedKWh.toFixed(1)} kWh`);
    expect(text).toMatch(/proven best|at most \d+\.\d % above the best possible/);
    const late = search.plan?.tickets.filter(({ lateMinutes }) => lateMinutes > 0) ?? [];
    for (const one of late) expect(text).toContain(one.reason ?? "no reason given");
    if (late.length === 0) expect(text).toContain("Every promise is kept.");
    for (const caution of search.plan?.cautions ?? []) expect(text).toContain(caution);
    await page.close();
  });

  it("follows a running search live and stops it by a button", async () => {
    const started = await service.ask("POST", "/plans", { body: { seconds: 60, gapPercent: 0 } });
    const { page, complaints } = await opened("");
    await page.getByRole("button", { name: "Stop" }).click();
    await page.getByRole("status").filter({ hasNotText: "still searching" }).waitFor();
    expect((await service.finished(started.body.id)).state).toBe("stopped");
    expect(complaints).toEqual([]);
    await page.close();
  });

  it.each([
    ["", 1280, "light"],
    ["", 390, "dark"],
    ["#/pans", 390, "light"],
    ["#/pans", 1280, "dark"],
  ] as const)("has no barriers at '%s', %i px wide, %s, and does not scroll sideways", async (hash, width, scheme) => {
    const { page, complaints } = await opened(hash, width, scheme);
    expect(await barriers(page)).toEqual([]);
    expect(await page.evaluate("document.documentElement.scrollWidth - innerWidth")).toBeLessThanOrEqual(0);
    expect(complaints).toEqual([]);
    await page.close();
  });
});

describe("the load sheet", () => {
  it("prints every load on one page, its number large", async () => {
    const loads = search.plan?.loads ?? [];
    const { page, complaints } = await opened(`#/load/${loads[0]?.id}`);
    await page.emulateMedia({ media: "print" });
    for (const { id } of loads) {
      await page.evaluate(`location.hash = "#/load/${id}"`);
      const number = page.locator(".number", { hasText: new RegExp(`^${id}$`) });
      await number.waitFor();
      const pdf = (await page.pdf({ preferCSSPageSize: true })).toString("latin1");
      expect(pdf.match(/\/Type\s*\/Page\b(?!s)/g), id).toHaveLength(1);
      // 48 points and more are read from across the room (common practice, no source).
      expect((await number.boundingBox())?.height).toBeGreaterThan(64);
    }
    if (process.env["SHOTS"]) await page.screenshot({ path: `${process.env["SHOTS"]}/print.png`, fullPage: true });
    expect(complaints).toEqual([]);
    await page.close();
  });

  it("draws every pan where the plan puts it and names it in the table", async () => {
    const load = search.plan?.loads.toSorted((a, b) => b.pans.length - a.pans.length)[0];
    const { page } = await opened(`#/load/${load?.id}`, 390, "dark");
    expect(await page.locator(".pan").count()).toBe(load?.pans.length);
    const centres: string[] = await page.evaluate(
      "[...document.querySelectorAll('.pan text')].map((name) => name.getAttribute('x'))",
    );
    expect(centres.map(Number)).toEqual(expect.arrayContaining(load?.pans.map(({ xCm }) => Number(xCm)) ?? []));
    const rows = await page.locator(".sheet tbody tr").count();
    expect(rows).toBe(load?.pans.length);
    expect(await barriers(page)).toEqual([]);
    await page.close();
  });

  it("is reached and ticked by the keyboard alone", async () => {
    const load = search.plan?.loads[0];
    const { page } = await opened(`#/load/${load?.id}`);
    const box = page.getByRole("checkbox").first();
    for (let i = 0; i < 12 && !(await page.evaluate("document.activeElement.type === 'checkbox'")); i++)
      await page.keyboard.press("Tab");
    await page.keyboard.press("Space");
    expect(await box.isChecked()).toBe(true);
    await page.close();
  });
});

describe("waiting pans", () => {
  it("takes a pan by the form and lists it", async () => {
    const { page } = await opened("#/pans");
    await page.getByLabel("Name").fill("Z-99");
    await page.getByLabel("Diameter, cm").fill("24");
    await page.getByLabel("Height, cm").fill("5");
    await page.getByLabel("Mass, kg").fill("0.9");
    await page.getByRole("button", { name: "Add" }).click();
    await page.getByRole("rowheader", { name: "Z-99" }).waitFor();
    const { body } = await service.ask("GET", "/pans/Z-99");
    expect(body.pan.shape).toEqual({ kind: "disc", diameterCm: 24 });
    await page.close();
  });
});

it("keeps the page's script under 60 kB as sent", () => {
  const scripts = readdirSync(`${web}dist/assets`).filter((name) => name.endsWith(".js"));
  const bytes = scripts.map((name) => gzipSync(readFileSync(`${web}dist/assets/${name}`)).length);
  expect(bytes.reduce((sum, one) => sum + one, 0)).toBeGreaterThan(1000);
  expect(bytes.reduce((sum, one) => sum + one, 0)).toBeLessThan(60_000);
});
