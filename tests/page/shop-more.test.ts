/** What comes and goes in the shop: ovens, coats, rules, metals, the gas, the clock. All stored as the contract has it. */
import type { Page } from "playwright-core";
import { expect, it } from "vitest";
import { atPage, refusal } from "../help/at-page.ts";
import { suitsEverybody } from "../help/page.ts";

const shop = atPage();

const stored = async (path: string, of: string) => (await shop.service.ask("GET", path)).body[of];

async function save(page: Page, form?: string): Promise<void> {
  const inside = form === undefined ? page.locator("main") : page.getByRole("form", { name: form });
  await inside.getByRole("button", { name: "Save", exact: true }).first().click();
  await inside.getByRole("status").filter({ hasText: "Saved. It counts" }).waitFor();
}

it("an oven is added like another one, gets a shelf, and is taken away again", async () => {
  const page = await shop.open("#/shop", { width: 390 });
  const like = await stored("/ovens/box", "oven");
  await page.getByRole("link", { name: "Another oven" }).click();
  await page.getByLabel("Name", { exact: true }).fill("Little Box");
  await page.getByLabel("Like").selectOption({ label: like.name });
  await suitsEverybody(page, "shop-new-oven-390");
  await page.getByRole("button", { name: "Add it" }).click();
  await page.getByRole("button", { name: "Another shelf" }).click();
  await save(page);
  const { shelves } = like.space;
  const added = { ...like, id: "little-box", name: "Little Box" };
  expect(await stored("/ovens/little-box", "oven")).toEqual({
    ...added,
    space: { ...like.space, shelves: [...shelves, { ...shelves.at(-1), id: `shelf ${shelves.length + 1}` }] },
  });
  await page.getByRole("button", { name: "Take Little Box away" }).click();
  await page.getByRole("button", { name: "Yes, take it away" }).click();
  await page.getByRole("link", { name: "Another oven" }).waitFor();
  expect((await stored("/ovens", "ovens")).map(({ oven }: { oven: { id: string } }) => oven.id)).toEqual(["box"]);
});

it("a coat comes and goes; a coating that pans wait for stays", async () => {
  const page = await shop.open("#/shop/coating/two-coat", { says: refusal });
  const before = await stored("/coatings/two-coat", "coating");
  await page.getByRole("button", { name: "Another coat", exact: true }).click();
  await save(page);
  expect(await stored("/coatings/two-coat", "coating")).toEqual({
    ...before,
    coats: [...before.coats, { ...before.coats.at(-1), name: "coat 3" }],
  });
  await page.getByRole("button", { name: "Take coat 3 away" }).click();
  await save(page);
  expect(await stored("/coatings/two-coat", "coating")).toEqual(before);
  await page.getByRole("button", { name: `Take ${before.name} away` }).click();
  await page.getByRole("button", { name: "Yes, take it away" }).click();
  await page.getByRole("alert").filter({ hasText: "It stays. Pans on the list still need it" }).waitFor();
});

it("rules, metals and gas are changed by their fields", async () => {
  const page = await shop.open("#/shop/rules", { width: 390, scheme: "dark" });
  const rules = await stored("/settings/mixing", "value");
  await page.getByRole("button", { name: "Another pair" }).click();
  await page.getByLabel("The empty oven is burnt clean").check();
  await page.getByLabel("Held for").fill("45");
  await suitsEverybody(page, "shop-rules-390-dark");
  await save(page);
  const [one, other] = ["fluoropolymer", "bare metal"];
  expect(await stored("/settings/mixing", "value")).toMatchObject({
    neverTogether: [...rules.neverTogether, [one, other]],
    cleanBurn: { after: [one], before: [other], setPointC: 400, holdMinutes: 45 },
  });

  await page.goto(`${shop.service.address}/#/shop/metals`);
  await page.getByLabel("Another metal").fill("copper");
  await page.getByRole("button", { name: "Add it" }).click();
  // Copper near room temperature, CRC Handbook of Chemistry and Physics: 385 J/kgK.
  await page.getByRole("group", { name: "copper" }).getByLabel("Heat it takes").fill("385");
  await suitsEverybody(page, "shop-metals-390-dark");
  await save(page);
  expect((await stored("/settings/materials", "value")).copper).toEqual({ specificHeatJPerKgK: 385 });

  await page.goto(`${shop.service.address}/#/shop/prices`);
  await page.getByLabel("Kind of gas").selectOption("propane");
  await page.getByLabel("Counted in").selectOption("kg");
  await page.getByLabel("Heat of a unit, kWh/kg").fill("13.9");
  await save(page, "Gas");
  expect(await stored("/settings/gas", "value")).toMatchObject({ kind: "propane", unit: "kg", grossKWhPerUnit: 13.9 });
});

it("the day's name, clock and money are changed by their fields", async () => {
  const page = await shop.open("#/shop/calendar");
  await suitsEverybody(page, "shop-calendar-1280");
  for (const [label, value] of [
    ["Currency", "GBP"],
    ["Name of the day", "Tuesday"],
  ] as const) {
    await page.getByRole("textbox", { name: label }).fill(value);
    await save(page, label);
  }
  await page.getByRole("textbox", { name: "Planned from" }).fill("2026-06-09T08:15");
  await save(page, "Planned from");
  await page.getByRole("combobox", { name: "Time zone" }).selectOption("Europe/Dublin");
  await save(page, "Time zone");
  const settings = await Promise.all(
    ["title", "currency", "planFrom", "timeZone"].map((name) => stored(`/settings/${name}`, "value")),
  );
  expect(settings).toEqual(["Tuesday", "GBP", "2026-06-09T08:15", "Europe/Dublin"]);
});

it("two people's changes of different figures are both kept", async () => {
  const page = await shop.open("#/shop/oven/box", { says: refusal });
  await page.getByLabel("Temperature").selectOption("°F");
  await page.getByLabel("Highest set-point").fill("770");
  const { oven, version } = (await shop.service.ask("GET", "/ovens/box")).body;
  const theirs = { ...oven, cycle: { ...oven.cycle, burnerKW: 25 } };
  const headers = { "If-Match": `"${version}"` };
  expect((await shop.service.ask("PUT", "/ovens/box", { body: { oven: theirs }, headers })).status).toBe(200);
  await page.getByRole("button", { name: "Save", exact: true }).click();
  const table = page.getByRole("table", { name: "Where the two differ" });
  await table.waitFor();
  const rows = await Promise.all(
    (await table.locator("tbody tr").all()).map((row) => row.locator("th, td").allInnerTexts()),
  );
  expect(rows.toSorted(([a = ""], [b = ""]) => a.localeCompare(b))).toEqual([
    ["Burner, full fire", String(oven.cycle.burnerKW), "25"],
    ["Highest set-point", "770 °F", "806 °F"],
  ]);
  await suitsEverybody(page, "shop-conflict-1280");
  await page.getByRole("button", { name: "Keep mine where I changed it" }).click();
  await page.getByRole("status").filter({ hasText: "Saved. It counts" }).waitFor();
  expect((await stored("/ovens/box", "oven")).cycle).toEqual({ ...oven.cycle, burnerKW: 25, setPointMaxC: 410 });
});
