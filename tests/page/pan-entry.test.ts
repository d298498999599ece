/** A pan is entered without scrolling past the list, however long that is. */
import { expect, it } from "vitest";
import { atPage } from "../help/at-page.ts";
import { tabTo } from "../help/page.ts";
import { shopDay } from "../help/service.ts";

const shop = atPage();

it.each([1280, 390])("entry opens above the list at a press, with the focus in it, at %i px", async (width) => {
  expect((await shop.service.ask("PUT", "/day", { body: shopDay("full-day") })).status).toBe(200);
  const page = await shop.open("#/pans", { width });
  await page
    .getByRole("button", { name: /^Report / })
    .nth(10)
    .waitFor();
  expect(await page.getByRole("heading", { name: "Add a pan" }).count()).toBe(0);
  await tabTo(page, "main button");
  await page.keyboard.press("Enter");
  const focused = page.locator(".panform input:focus");
  await focused.waitFor();
  expect(await page.getByLabel("Ticket", { exact: true }).evaluate((one) => one.matches(":focus"))).toBe(true);
  const box = await focused.boundingBox();
  expect((box?.y ?? Infinity) + (box?.height ?? 0)).toBeLessThan(900);
  await page.getByRole("button", { name: "Done adding" }).click();
  await page.locator(".panform").waitFor({ state: "detached" });
});
