/** Who works at a device is asked once, kept there, sent with every report, and read in the log. */
import { expect, it } from "vitest";
import { atPage } from "../help/at-page.ts";
import { suitsEverybody } from "../help/page.ts";

const shop = atPage();

const newest = async () => (await shop.service.ask("GET", "/events")).body.events.at(-1);

it("is asked once, signs what is reported and saved, and can be another one later", async () => {
  const page = await shop.open("#/pans", { width: 390 });
  await suitsEverybody(page, "who-390-light");
  await page.getByLabel("Who is working here?").fill(" Ilse ");
  await page.keyboard.press("Enter");
  await page.getByLabel("Who is working here?").waitFor({ state: "detached" });

  await page.getByRole("button", { name: "Report B-16-A" }).click();
  await page.getByRole("button", { name: "Hold it", exact: true }).click();
  await page.getByRole("status").filter({ hasText: "B-16-A" }).waitFor();
  expect(await newest()).toMatchObject({ kind: "pan-held", who: "Ilse" });

  await page.goto(`${shop.service.address}/#/shop/prices`);
  await page.reload();
  await page.getByLabel("Gas, a kWh").fill("0.14");
  expect(await page.getByLabel("Who is working here?").count()).toBe(0);
  await page.getByRole("button", { name: "Ilse (change)" }).click();
  await page.getByLabel("Who is working here?").fill("T. V.");
  await page.getByRole("button", { name: "That's me" }).click();
  await page.getByRole("button", { name: "Save", exact: true }).first().click();
  await page.getByRole("status").filter({ hasText: "Saved" }).waitFor();
  expect(await newest()).toMatchObject({ kind: "setting-changed", who: "T. V." });

  await page.goto(`${shop.service.address}/#/close`);
  await page.locator("summary", { hasText: "Reported today" }).click();
  const rows = page.getByRole("table", { name: "Reported today" }).locator("tbody tr");
  // What was reported before stands there first.
  const shown = async (): Promise<string[][]> =>
    Promise.all((await rows.all()).slice(0, 2).map((row) => row.locator("th, td").allInnerTexts()));
  await expect
    .poll(async () => (await shown()).map(([, ...rest]) => rest))
    .toEqual([
      ["Setting changed", "prices", "T. V."],
      ["Pan on hold", "B-16-A", "Ilse"],
    ]);
});

it("need not be told", async () => {
  const page = await shop.open("#/pans");
  await page.getByRole("button", { name: "Nobody in particular" }).first().click();
  await page.getByRole("button", { name: "Report B-16-A" }).click();
  await page.getByRole("button", { name: "It is ready now" }).click();
  await page.getByRole("status").filter({ hasText: "B-16-A is ready." }).waitFor();
  expect(await newest()).toMatchObject({ kind: "pan-ready", who: "" });
});
