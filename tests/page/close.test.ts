/** Close of day in a real browser: the figures are the service's, the day is closed by two presses, and read again afterwards. */
import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it, vi } from "vitest";
import type { DaySummary } from "../../api/contract/closed-day.ts";
import { openBrowser } from "../help/browser.ts";
import { barriers, buildPage, openPage, shoot, sideways, smallTargets, tabTo } from "../help/page.ts";
import type { Opening } from "../help/page.ts";
import type { TestService } from "../help/service.ts";
import { shopInUse } from "../help/shop-in-use.ts";

// A busy machine opens pages slowly.
vi.setConfig({ testTimeout: 60_000 });

const evening = "2026-06-09T18:00:00Z";
let browser: Browser;
let service: TestService;

/** A day that was fired as planned, with one pan failed and the meter read in the morning. */
beforeAll(async () => {
  await buildPage();
  browser = await openBrowser();
  service = await shopInUse("2026-06-09T06:55:00Z");
  const morning = { at: "2026-06-09T07:00:00+01:00", oven: "box", meterUnits: 4210.5 };
  expect((await service.ask("POST", "/readings", { body: morning })).status).toBe(201);
  const { loads } = (await service.ask("GET", "/loads")).body;
  service.setNow(loads[0].load.doneAt);
  const failed = { kind: "pan-failed", pan: loads[0].load.pans[0].id, cause: "pinholes" };
  expect((await service.ask("POST", "/events", { body: failed })).status).toBe(201);
  service.setNow(evening);
}, 120_000);

afterAll(async () => {
  await browser?.close();
  await service?.stop();
});

async function opened(opening: Opening = {}) {
  const one = await openPage(browser, `${service.address}/#/close`, { now: evening, ...opening });
  await one.page.getByRole("heading", { name: "Closed days" }).waitFor();
  return one;
}

const figure = (page: Page, name: string): Promise<string> =>
  page
    .locator(".figures > div", { has: page.getByText(name, { exact: true }) })
    .locator("dd")
    .innerText();

const rowsOf = async (page: Page, table: string): Promise<string[][]> => {
  const rows = await page.getByRole("table", { name: table }).locator("tbody tr").all();
  return Promise.all(rows.map((row) => row.locator("th, td").allInnerTexts()));
};

const kWh = (n: number): string => `${n.toFixed(1)} kWh`;

async function summaryShown(page: Page, summary: DaySummary): Promise<void> {
  expect(await figure(page, "Pans fired, all firings")).toBe(String(summary.bakes));
  expect(await figure(page, "Loads")).toBe(String(summary.loads));
  expect(await figure(page, "Pans finished")).toBe(String(summary.pansFinished));
  expect(await figure(page, "Pans failed")).toBe("1");
  expect(await figure(page, "Gas as foreseen")).toBe(kWh(summary.gasKWh));
  expect(await figure(page, "Gas a pan, foreseen")).toBe(kWh(summary.kWhPerPan ?? Number.NaN));
  expect(await rowsOf(page, "Failed, by cause")).toEqual([["pinholes", "1"]]);
  const firings = await rowsOf(page, "Firings");
  expect(firings.map(([load]) => load)).toEqual(summary.fired.map(({ load }) => load));
  expect(firings.map((row) => row[7])).toEqual(summary.fired.map(({ gasKWh }) => kWh(gasKWh)));
}

describe("the close of day", () => {
  it("shows what was fired, failed, burnt and saved, without barriers, 390 px, dark", async () => {
    const { page, complaints } = await opened({ width: 390, scheme: "dark" });
    const { summary, week, month } = (await service.ask("GET", "/day/close")).body;
    expect(summary.loads).toBeGreaterThan(1);
    await summaryShown(page, summary);
    expect(await page.getByText("Not measured").count()).toBe(1);
    const saved = await rowsOf(page, "Saved by grouping");
    const spans = [summary, week, month].flatMap((span: Pick<DaySummary, "saved">) => span.saved);
    expect(saved.map((row) => row.slice(2))).toEqual(
      spans.map((one) => [kWh(one.habitKWh), kWh(one.savedKWh), `€${one.savedMoney.toFixed(2)}`]),
    );
    await shoot(page, "close-390-dark");
    expect(await barriers(page)).toEqual([]);
    expect(await smallTargets(page)).toEqual([]);
    expect(await sideways(page)).toBeLessThanOrEqual(0);
    expect(complaints).toEqual([]);
    await page.close();
  });

  it("holds the meter against the prediction, then closes the day by the keyboard; it can be read ever after", async () => {
    const { page, complaints } = await opened();
    await page.getByLabel("Meter or bottle shows").fill("4216,25");
    await page.getByRole("button", { name: "Keep the reading" }).click();
    await page.getByText("4216.25 m³ kept.").waitFor();
    await page.getByText("Measured against foreseen").waitFor();
    const { summary } = (await service.ask("GET", "/day/close")).body;
    // 5.75 m³ at 11 kWh/m³, gross.
    expect(summary.measuredGas.kWh).toBeCloseTo(63.25, 6);
    expect(await figure(page, "Gas as measured")).toBe("63.3 kWh");
    const percent = summary.measuredGas.differencePercent;
    expect(await figure(page, "Measured against foreseen")).toBe(
      `${Math.abs(percent).toFixed(1)} % ${percent > 0 ? "more" : "less"}`,
    );
    await shoot(page, "close-1280-light");
    await tabTo(page, ".closing input");
    await page.keyboard.type("Ana");
    await page.keyboard.press("Enter");
    await page.getByText("Close the day now?").waitFor();
    await tabTo(page, ".closing button");
    expect((await service.ask("GET", "/days")).body.days).toEqual([]);
    await page.keyboard.press("Enter");
    await page.getByRole("status").filter({ hasText: "Closed: Small morning" }).waitFor();
    const { days } = (await service.ask("GET", "/days")).body;
    expect(days).toHaveLength(1);
    await page.getByRole("link", { name: "Small morning" }).click();
    await page.getByRole("heading", { name: "Plans of that day" }).waitFor();
    const closed = (await service.ask("GET", `/days/${days[0].id}`)).body;
    expect(closed.summary).toEqual(summary);
    await summaryShown(page, closed.summary);
    expect((await rowsOf(page, "Plans of that day")).map(([id]) => id)).toEqual(
      closed.plans.map(({ id }: { id: string }) => id),
    );
    await shoot(page, "closed-day-1280-light");
    expect(await barriers(page)).toEqual([]);
    expect(await smallTargets(page)).toEqual([]);
    expect(complaints).toEqual([]);
    await page.close();
  });
});
