/** Whoever accepts a rush takes the figures on screen, or is shown the better ones first. */
import { expect, it } from "vitest";
import { atPage, refusal } from "../help/at-page.ts";
import { barriers, closePage, shoot } from "../help/page.ts";
import { morning } from "../help/planned-shop.ts";

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

it("who slips is as many minutes late as the promise and the hand-over beside it are apart", async () => {
  const page = await shop.browser.newPage({ serviceWorkers: "block", locale: "en-GB" });
  await page.clock.setFixedTime(morning);
  const slip = {
    ticket: "K-9",
    waitsFor: [],
    promisedAt: "2026-06-09T11:30:00+01:00",
    wasReadyAt: "2026-06-09T11:20:00+01:00",
    // 1.4 min after the promise.
    readyAt: "2026-06-09T11:31:24+01:00",
    minutes: 12,
    wasLateMinutes: 0,
    lateMinutes: 1.4,
    words: "K-9 slips.",
  };
  await page.route(/\/quotes(\/|$)/, async (route) => {
    const answer = await (await route.fetch()).json();
    const { quote, difference } = answer;
    if (quote === null) return route.fulfill({ json: answer });
    const slipped = { quote: { ...quote, slips: [slip] }, difference: { ...difference, tickets: [slip] } };
    return route.fulfill({ json: { ...answer, ...slipped } });
  });
  await page.goto(`${shop.service.address}/#/rush`);
  await page.getByRole("button", { name: "When can it be ready?" }).click();
  const row = page.getByRole("table", { name: "Who slips" }).getByRole("row", { name: "K-9" });
  await row.waitFor();
  const cells = (await row.innerText()).split("\t").map((cell) => cell.trim());
  expect(cells).toEqual(["K-9", "11:20", "11:32", "12 min later", "11:30", "2 min"]);
  await closePage(page);
});
