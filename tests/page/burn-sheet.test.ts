/** An oven left soiled: the sheet of its clean burn says what it is for, so that nobody skips it. */
import { expect, it } from "vitest";
import { atPage } from "../help/at-page.ts";
import { shopDay } from "../help/service.ts";

const shop = atPage();

it("names the load that a clean burn is owed before", async () => {
  const { service } = shop;
  const day = shopDay("full-day");
  const [oven] = day.ovens;
  const primed = day.pans.find(({ coating }) => coating === "two-coat");
  if (oven === undefined || primed === undefined) throw new Error("the day has no oven or no pan of two coats");
  const soiled = { ...day, pans: [primed], held: [], ovens: [{ ...oven, lastGroups: ["silicone"] }] };
  service.setNow("2026-09-15T05:00:00Z");
  expect((await service.ask("PUT", "/day", { body: soiled })).status).toBe(200);
  const { id } = (await service.ask("POST", "/plans", { body: { seconds: 60, steps: 30 } })).body;
  const { plan } = await service.finished(id);
  expect((await service.ask("POST", `/plans/${id}/accept`, { body: {} })).status).toBe(200);
  const burn = plan?.loads.find(({ kind }) => kind === "clean burn");
  const bake = plan?.loads.find(({ kind }) => kind === "bake");
  if (burn === undefined || bake === undefined) throw new Error("the plan has no burn or no bake");

  const page = await shop.open(`#/load/${burn.id}`, { now: "2026-09-15T05:05:00Z" });
  await page.locator(".targets").waitFor();
  expect(await page.locator(".sheethead").innerText()).toContain(`clean burn, owed before ${bake.id},`);
  // Nothing stands in the oven: no tape to take off, no metal to measure.
  expect(await page.locator(".gates").innerText()).toContain("oven empty");
  expect(await page.locator(".gates").innerText()).not.toContain("tape");
  expect(await page.getByRole("heading", { name: "Checks with the infrared thermometer" }).count()).toBe(0);
  await page.goto(`${service.address}/#/load/${bake.id}`);
  await expect.poll(() => page.locator(".sheethead").innerText()).not.toContain("owed");
  expect(await page.locator(".gates").innerText()).toContain("tape off");
  expect(await page.getByRole("heading", { name: "Checks with the infrared thermometer" }).count()).toBe(1);
});
