/** Close of day in a real browser: the figures are the service's, the day is closed by two presses, and read again afterwards. */
import type { Page } from "playwright-core";
import { beforeAll, describe, expect, it } from "vitest";
import type { DaySummary } from "../../api/contract/closed-day.ts";
import { atPage } from "../help/at-page.ts";
import type { OpeningAt } from "../help/at-page.ts";
import { shoot, suitsEverybody, tabTo } from "../help/page.ts";

const evening = "2026-06-09T18:00:00Z";
const shop = atPage();

/** A day that was fired as planned, with one pan failed and the meter read in the morning. */
beforeAll(async () => {
  const { service, plan } = shop;
  const before = { at: "2026-06-09T07:00:00+01:00", oven: "box", meterUnits: 4210.5 };
  expect((await service.ask("POST", "/readings", { body: before })).status).toBe(201);
  const [first] = plan.loads;
  service.setNow(first?.doneAt ?? evening);
  const failed = { kind: "pan-failed", pan: first?.pans[0]?.id, cause: "pinholes" };
  expect((await service.ask("POST", "/events", { body: failed })).status).toBe(201);
  service.setNow(evening);
});

async function opened(opening: OpeningAt = {}): Promise<Page> {
  const page = await shop.open("#/close", { now: evening, ...opening });
  await page.getByRole("heading", { name: "Closed days" }).waitFor();
  return page;
}

const figure = (page: Page, name: string): Promise<string> =>
  page
    .locator(".figures > div", { has: page.getByText(name, { exact: true }) })
    .locator("dd")
    .innerText();

const rowsOf = async (page: Page, table: string): Promise<string[][]> => {
  const found = page.getByRole("table", { name: table }).locator("tbody tr");
  await found.first().waitFor();
  const rows = await found.all();
  return Promise.all(rows.map((row) => row.locator("th, td").allInnerTexts()));
};

const kWh = (n: number): string => `${n.toFixed(1)} kWh`;

async function summaryShown(page: Page, summary: DaySummary): Promise<void> {
  await expect.poll(() => figure(page, "Pans fired, all firings")).toBe(String(summary.bakes));
  await expect.poll(() => figure(page, "Loads")).toBe(String(summary.loads));
  await expect.poll(() => figure(page, "Pans finished")).toBe(String(summary.pansFinished));
  await expect.poll(() => figure(page, "Pans failed")).toBe("1");
  await expect.poll(() => figure(page, "Gas as foreseen")).toBe(kWh(summary.gasKWh));
  await expect.poll(() => figure(page, "Gas a pan, foreseen")).toBe(kWh(summary.kWhPerPan ?? Number.NaN));
  expect(await rowsOf(page, "Failed, by cause")).toEqual([["pinholes", "1"]]);
  const firings = await rowsOf(page, "Firings");
  expect(firings.map(([load]) => load)).toEqual(summary.fired.map(({ load }) => load));
  expect(firings.map((row) => row[7])).toEqual(summary.fired.map(({ gasKWh }) => kWh(gasKWh)));
}

describe("the close of day", () => {
  it("shows what was fired, failed, burnt and saved, without barriers, 390 px, dark", async () => {
    const page = await opened({ width: 390, scheme: "dark" });
    const { summary, week, month } = (await shop.service.ask("GET", "/day/close")).body;
    expect(summary.loads).toBeGreaterThan(1);
    await summaryShown(page, summary);
    await page.getByText("Not measured").waitFor();
    const saved = await rowsOf(page, "Saved by grouping");
    const spans = [summary, week, month].flatMap((span: Pick<DaySummary, "saved">) => span.saved);
    expect(saved.map((row) => row.slice(2))).toEqual(
      spans.map((one) => [kWh(one.habitKWh), kWh(one.savedKWh), `€${one.savedMoney.toFixed(2)}`]),
    );
    await suitsEverybody(page, "close-390-dark");
  });

  it("holds the meter against the prediction, then closes the day by the keyboard; it can be read ever after", async () => {
    const page = await opened();
    await page.getByLabel("Meter or bottle shows").fill("4216,25");
    await page.getByRole("button", { name: "Keep the reading" }).click();
    await page.getByText("4216.25 m³ kept.").waitFor();
    await page.getByText("Measured against foreseen").waitFor();
    const { summary } = (await shop.service.ask("GET", "/day/close")).body;
    // 5.75 m³ at 11 kWh/m³, gross.
    expect(summary.measuredGas.kWh).toBeCloseTo(63.25, 6);
    await expect.poll(() => figure(page, "Gas as measured")).toBe("63.3 kWh");
    const percent = summary.measuredGas.differencePercent;
    await expect
      .poll(() => figure(page, "Measured against foreseen"))
      .toBe(`${Math.abs(percent).toFixed(1)} % ${percent > 0 ? "more" : "less"}`);
    await shoot(page, "close-1280-light");
    await tabTo(page, ".closing button");
    await page.keyboard.press("Enter");
    // The question takes the focus; the button is after it.
    await page.locator(".closing p:focus", { hasText: "Close the day now?" }).waitFor();
    await tabTo(page, ".closing button");
    expect((await shop.service.ask("GET", "/days")).body.days).toEqual([]);
    await page.keyboard.press("Enter");
    await page.getByRole("status").filter({ hasText: "Closed: Small morning" }).waitFor();
    const { days } = (await shop.service.ask("GET", "/days")).body;
    expect(days).toHaveLength(1);
    await page.getByRole("link", { name: "Small morning" }).click();
    await page.getByRole("heading", { name: "Plans of that day" }).waitFor();
    const closed = (await shop.service.ask("GET", `/days/${days[0].id}`)).body;
    expect(closed.summary).toEqual(summary);
    await summaryShown(page, closed.summary);
    expect((await rowsOf(page, "Plans of that day")).map(([id]) => id)).toEqual(
      closed.plans.map(({ id }: { id: string }) => id),
    );
    await suitsEverybody(page, "closed-day-1280-light");
  });
});
