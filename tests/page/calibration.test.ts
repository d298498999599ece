/** Figures of an oven from its readings: proposed beside the present ones, saved only by hand. */
import { beforeAll, expect, it } from "vitest";
import type { CalibrationAnswer } from "../../api/contract/calibrating.ts";
import type { PlanLoad } from "../../api/contract/plan.ts";
import { atPage } from "../help/at-page.ts";
import { barriers, shoot, sideways } from "../help/page.ts";

const shop = atPage();

/** A day fired in an oven that stores 55 kJ/K, its chamber read every 3 minutes; then the oven is said to store 70. */
beforeAll(async () => {
  const fired = shop.service;
  const { loads } = (await fired.ask("GET", "/loads")).body as { loads: { id: string; load: PlanLoad }[] };
  let meterUnits = 500;
  const meter = (at: string) => fired.ask("POST", "/readings", { body: { oven: "box", at, meterUnits } });
  for (const { id, load } of loads) {
    await meter(load.doorClosesAt);
    meterUnits += load.gasKWh / 11;
    await meter(load.unloadAt);
    for (const { minute, chamberC } of load.curve.filter((point) => point.minute % 3 === 0)) {
      const at = new Date(Date.parse(load.doorClosesAt) + minute * 60_000).toISOString();
      const reading = { at, oven: "box", load: id, chamberC };
      expect((await fired.ask("POST", "/readings", { body: reading })).status).toBe(201);
    }
  }
  fired.setNow("2026-06-09T18:00:00Z");
  const { body } = await fired.ask("GET", "/ovens/box");
  const oven = { ...body.oven, cycle: { ...body.oven.cycle, heatCapacityKJPerK: 70 } };
  const headers = { "If-Match": `"${body.version}"` };
  expect((await fired.ask("PUT", "/ovens/box", { body: { oven }, headers })).status).toBe(200);
});

it("figures from readings stand beside the present ones, change nothing by themselves, and are saved from the form", async () => {
  const told = (await shop.service.ask("POST", "/ovens/box/calibration", { body: {} })).body as CalibrationAnswer;
  const page = await shop.open("#/shop/oven/box", { width: 390 });
  await page.getByRole("button", { name: "Work out the figures" }).click();
  const table = page.getByRole("table", { name: "Present and proposed figures" });
  await table.waitFor();
  const rows = await table.locator("tbody tr").all();
  const cells = await Promise.all(rows.map((row) => row.locator("td").allInnerTexts()));
  expect(cells.map(([present, proposed]) => [Number(present), Number(proposed)])).toEqual(
    told.figures.map((one) => [one.now, one.proposed]),
  );
  for (const sentence of told.words) await page.getByText(sentence, { exact: true }).waitFor();
  const heat = told.figures.find(({ figure }) => figure === "heatCapacityKJPerK");
  expect(heat?.told, told.words.join(" ")).toBe(true);
  expect(Math.abs((heat?.proposed ?? 0) - 55)).toBeLessThan(3);
  await shoot(page, "shop-calibration-390-light");
  expect(await barriers(page)).toEqual([]);
  expect(await sideways(page)).toBeLessThanOrEqual(0);
  const stores = async (): Promise<unknown> =>
    (await shop.service.ask("GET", "/ovens/box")).body.oven.cycle.heatCapacityKJPerK;
  expect(await stores()).toBe(70);
  await page.getByRole("button", { name: "Put them into the form" }).click();
  await page.getByRole("button", { name: "Save", exact: true }).click();
  await page.getByRole("status").filter({ hasText: "Saved" }).waitFor();
  expect(await stores()).toBe(heat?.proposed);
});
