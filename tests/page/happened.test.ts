/** What happens in a shop besides pans and doors is reported on the page, and what it means is told at once. */
import type { Page } from "playwright-core";
import { expect, it } from "vitest";
import { atPage } from "../help/at-page.ts";
import { suitsEverybody } from "../help/page.ts";

const shop = atPage();

const newest = async () => (await shop.service.ask("GET", "/events")).body.events.at(-1);

async function opened(now: string, width = 1280): Promise<Page> {
  shop.service.setNow(now);
  const page = await shop.open("#/", { now, width });
  await page.getByRole("link", { name: "Something else happened" }).click();
  await page.getByLabel("What", { exact: true }).waitFor();
  return page;
}

it("an interrupted bake tells what to do at the oven and what each pan had by then, and is taken back by its undo", async () => {
  const load = shop.plan.loads[0];
  if (load === undefined) throw new Error("the plan has no loads");
  const now = new Date(Date.parse(load.setPointAt ?? load.unloadAt)).toISOString();
  const page = await opened(now, 390);
  await page.getByLabel("What", { exact: true }).selectOption("load-interrupted");
  await page.getByLabel("Because of").selectOption("power cut");
  await page.getByRole("button", { name: "Report it" }).click();
  const told = page.getByRole("status").filter({ hasText: "Reported: A bake was interrupted" });
  await told.getByText(/purge the chamber in full/).waitFor();
  for (const { id } of load.pans) await told.getByText(new RegExp(`^${id.replaceAll(".", "\\.")}\\b`)).waitFor();
  await suitsEverybody(page, "happened-interrupted-390");
  expect(await newest()).toMatchObject({ kind: "load-interrupted", subject: load.id, body: { cause: "power cut" } });
  await told.getByRole("button", { name: "Undo" }).click();
  await told.waitFor({ state: "detached" });
  expect(await newest()).toMatchObject({ kind: "undone", subject: load.id });
});

it("a shelf, the gas and the booth are reported, and what is left is planned at a press", async () => {
  const page = await opened("2026-06-09T07:10:00Z");
  const report = async (kind: string, fill: () => Promise<unknown>): Promise<void> => {
    await page.getByLabel("What", { exact: true }).selectOption(kind);
    await fill();
    await page.getByRole("button", { name: "Report it" }).click();
    await page
      .getByRole("status")
      .filter({
        hasText: `Reported: ${await page.locator("form select").first().locator("option:checked").innerText()}`,
      })
      .waitFor();
  };
  await report("gas-left", () => page.getByLabel("Holds now").fill("6,5"));
  expect(await newest()).toMatchObject({ kind: "gas-left", body: { unitsLeft: 6.5 } });
  await report("sprayers-changed", () => page.getByLabel("At the booth now").fill("2"));
  expect(await newest()).toMatchObject({ kind: "sprayers-changed", body: { sprayers: 2 } });
  const shelf = (await shop.service.ask("GET", "/ovens/box")).body.oven.space.shelves.at(-1).id;
  await report("shelf-out", () => page.getByLabel("Shelf").selectOption(shelf));
  expect((await shop.service.ask("GET", "/ovens/box")).body.shelvesOut).toEqual([shelf]);

  await page.getByRole("button", { name: "Plan what is left from now" }).click();
  await page.getByText("This plan is proposed").waitFor();
  const { plans } = (await shop.service.ask("GET", "/plans")).body;
  await shop.service.ask("DELETE", `/plans/${plans[0].id}`);
  const { plan } = await shop.service.finished(plans[0].id);
  const later = plan?.loads.filter(({ doorOpensAt }) => Date.parse(doorOpensAt) > Date.parse("2026-06-09T07:10:00Z"));
  expect(later?.flatMap(({ pans }) => pans).filter((pan) => pan.shelf === shelf)).toEqual([]);
});
