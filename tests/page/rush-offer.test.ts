/** Whoever accepts a rush takes the figures on screen, or is shown the better ones first. */
import { expect, it } from "vitest";
import { atPage, refusal } from "../help/at-page.ts";
import { barriers, shoot } from "../help/page.ts";

const shop = atPage();

it("a better plan that came in between is shown to agree to, and then taken as shown", async () => {
  const page = await shop.open("#/rush", { says: refusal });
  const offers: string[] = [];
  // The first press goes out with the offer of an older plan, as if the better one had come a moment before it.
  await page.route("**/accept", async (route) => {
    const sent = route.request().postDataJSON() as { offer: string };
    offers.push(sent.offer);
    await route.continue(offers.length > 1 ? {} : { postData: { ...sent, offer: "0000000000000000" } });
  });
  await page.getByRole("button", { name: "When can it be ready?" }).click();
  await page.getByText("Earliest safe hand-over").waitFor();
  await page.getByRole("button", { name: "Accept the job" }).click();

  await page.getByRole("alert").filter({ hasText: "a better plan came in between" }).waitFor();
  await page.getByText("The search is over").waitFor();
  await shoot(page, "rush-better-1280-light");
  expect(await barriers(page)).toEqual([]);
  const { plans } = (await shop.service.ask("GET", "/plans")).body;
  const { id } = plans.find(({ kind }: { kind: string }) => kind === "quote");
  const quoted = (await shop.service.ask("GET", `/quotes/${id}`)).body;
  expect(quoted.inForce).toBe(false);
  await page.locator(".answer .headline", { hasText: quoted.quote.promiseAt.slice(11, 16) }).waitFor();

  await page.getByRole("button", { name: "Accept it as it is now" }).click();
  await page.getByRole("status").filter({ hasText: "Taken." }).waitFor();
  expect(offers[1]).toBe(quoted.offer);
  expect((await shop.service.ask("GET", "/plans/in-force")).body.plan).toEqual(quoted.plan);
});
