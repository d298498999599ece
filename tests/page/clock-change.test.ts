/**
 * A morning in which the clocks are put on: Auckland, 27 September 2026, 02:00 becomes 03:00 (IANA time zone database), so that
 * no time from 2:00 to 2:59 may stand anywhere. Some times of the day file carry another offset than the shop's.
 */
import { DateTime } from "luxon";
import type { Page } from "playwright-core";
import { afterAll, beforeAll, expect, it } from "vitest";
import type { DayFile } from "../../api/contract/day.ts";
import type { PlanLoad } from "../../api/contract/plan.ts";
import { atPage } from "../help/at-page.ts";
import { plannedShop } from "../help/planned-shop.ts";
import type { PlannedShop } from "../help/planned-shop.ts";
import { shopDay } from "../help/service.ts";

const zone = "Pacific/Auckland";
const shop = atPage();
const now = "2026-09-26T13:01:00Z";
/** A clock has two digits for the hour here; a countdown of minutes and seconds has not. */
const noSuchTime = /(?<![\d:])02:[0-5]\d(?![\d:])/;

/** The small morning seven hours earlier by the clock, so that it begins an hour before the change. */
function nightShift(): DayFile {
  const moved = JSON.stringify(shopDay("small-morning")).replaceAll(
    /2026-06-(09|10)T(\d\d)/g,
    (_, day: string, hour: string) => `2026-09-${Number(day) + 18}T${String(Number(hour) - 7).padStart(2, "0")}`,
  );
  const day = JSON.parse(moved) as DayFile;
  const [first, ...rest] = day.pans;
  if (first === undefined) throw new Error("the day has no pans");
  return {
    ...day,
    timeZone: zone,
    staffed: [{ from: "2026-09-27T01:00", to: "2026-09-26T21:30:00Z" }],
    pans: [{ ...first, promisedAt: "2026-09-26T20:45:00Z" }, ...rest],
  };
}

let night: PlannedShop;

beforeAll(async () => {
  night = await plannedShop(now, nightShift());
});
afterAll(() => night.service.stop());

const shown = (instant: string, minutes = 0): string =>
  DateTime.fromISO(instant, { zone }).plus({ minutes }).toFormat("HH:mm");

const offsetOf = (instant: string): string => instant.slice(-6);

/** The firing whose latest burner off comes after the change, and its door closes before. */
function overTheChange(): PlanLoad {
  const last = (load: PlanLoad): string =>
    DateTime.fromISO(load.burnerOffAt ?? load.unloadAt, { zone })
      .plus({ minutes: load.slackMinutes ?? 0 })
      .toFormat("ZZ");
  const load = night.plan.loads.find((one) => offsetOf(one.doorClosesAt) === "+12:00" && last(one) === "+13:00");
  if (load === undefined) throw new Error("no firing lies over the change");
  return load;
}

async function opened(place: string, ready: string): Promise<Page> {
  const page = await shop.open(place, { at: night.service, now });
  await page.locator(ready).first().waitFor();
  return page;
}

it("has the sheet of a firing over the change say times of the shop's clock only", async () => {
  const load = overTheChange();
  const page = await opened(`#/load/${load.id}`, ".targets");
  for (const summary of await page.locator("main details:not([open]) > summary").all()) await summary.click();
  const text = await page.locator("main").innerText();
  const curve = await page.locator("svg.curve text.minute").allTextContents();
  expect([text, ...curve].join("\n")).not.toMatch(noSuchTime);
  expect(text).toContain(shown(load.burnerOffAt ?? "", load.slackMinutes ?? 0));
  for (const { inWindowAt, soakMinutes } of load.pans)
    expect(text).toContain(`${shown(inWindowAt ?? "")} – ${shown(inWindowAt ?? "", Number(soakMinutes))}`);
  const last = load.curve.at(-1);
  expect(text).toContain(`${shown(load.doorClosesAt, last?.minute)}\t`);
});

it("has the day's drawing, its table and the loads say such times only", async () => {
  const page = await opened("", ".dayclock a.load");
  for (const summary of await page.locator("main details:not([open]) > summary").all()) await summary.click();
  const hours = await page.locator(".dayclock svg[aria-hidden] > text").allTextContents();
  expect(hours.slice(0, 3)).toEqual(["01:00", "03:00", "04:00"]);
  expect(await page.locator("main").innerText()).not.toMatch(noSuchTime);
});

it("shows what the day file says with another offset by the shop's clock", async () => {
  const pans = await opened("#/pans", "table");
  await expect.poll(() => pans.locator("table").last().innerText()).toContain("09:45");
  const hours = await opened("#/shop/hours", "form");
  await expect.poll(() => hours.getByLabel("To").first().inputValue()).toBe("2026-09-27T10:30");
});

it("draws full hours of the shop's clock where that is a quarter off the others", async () => {
  const day = { ...shopDay("small-morning"), timeZone: "Asia/Kathmandu" };
  const at = "2026-06-09T02:16:00Z";
  const { service } = await plannedShop(at, day);
  try {
    const page = await shop.open("", { at: service, now: at });
    const hours = page.locator(".dayclock svg[aria-hidden] > text");
    await hours.first().waitFor();
    expect((await hours.allTextContents()).slice(0, 3)).toEqual(["08:00", "09:00", "10:00"]);
    await page.close();
  } finally {
    await service.stop();
  }
});
