/** A rush at the counter in a real browser: asked, answered with the service's figures, dropped without a trace, taken as promised. */
import type { Page } from "playwright-core";
import { afterEach, describe, expect, it } from "vitest";
import { atPage, refusal } from "../help/at-page.ts";
import type { OpeningAt } from "../help/at-page.ts";
import { barriers, shoot, suitsEverybody, tabTo } from "../help/page.ts";

const shop = atPage();
let followed = "";

/** What a test left searching would hold up the next one. */
afterEach(async () => {
  const { plans } = (await shop.service.ask("GET", "/plans")).body;
  for (const { id, state } of plans)
    if (state === "searching" || state === "queued") await shop.service.ask("DELETE", `/plans/${id}`);
});

async function opened(opening: OpeningAt = {}): Promise<Page> {
  const page = await shop.open("#/rush", opening);
  await page.getByLabel("2. Which coat?").waitFor();
  page.on("request", (request) => {
    followed = /plans\/([^/]+)\/events$/.exec(request.url())?.[1] ?? followed;
  });
  return page;
}

async function ask(page: Page): Promise<void> {
  await page.getByRole("button", { name: "When can it be ready?" }).click();
  await page.getByRole("heading", { name: "The answer" }).waitFor();
  await page.getByText("Earliest safe hand-over").waitFor();
}

/** The quote that the page follows. */
async function quoteOf() {
  return (await shop.service.ask("GET", `/quotes/${followed}`)).body;
}

/** Ends the search early: what was found by then is the answer. */
async function settled(page: Page): Promise<void> {
  await shop.service.ask("DELETE", `/plans/${followed}`);
  await page.getByText("The search is over").waitFor();
}

/** What stands under a heading of the answer. */
const figure = (page: Page, name: string): Promise<string> =>
  page
    .locator(".figures > div", { has: page.getByText(name, { exact: true }) })
    .locator("dd")
    .innerText();

const clockOf = (instant: string): string => instant.slice(11, 16);

describe("a rush at the counter", () => {
  it("is answered with the figures of the quote, to the digit shown", async () => {
    const page = await opened();
    await page.getByLabel("How many").fill("2");
    await ask(page);
    await settled(page);
    const { quote, difference } = await quoteOf();
    await expect.poll(() => figure(page, "Earliest safe hand-over")).toBe(clockOf(quote.earliestReadyAt));
    await expect.poll(() => figure(page, "Promise to give")).toBe(clockOf(quote.promiseAt));
    await expect.poll(() => figure(page, "Extra gas")).toBe(`${quote.extraGasKWh.toFixed(1)} kWh`);
    await expect.poll(() => figure(page, "Extra oven time")).toBe(`${quote.extraOvenMinutes.toFixed(0)} min`);
    const money = quote.extraMoney < 0 ? "Saves the shop in all" : "Costs the shop in all";
    await expect.poll(() => figure(page, money)).toBe(`€${Math.abs(quote.extraMoney).toFixed(2)}`);
    // Dates are written as the browser's language writes them.
    for (const sentence of quote.words)
      await page.locator(".answer", { hasText: sentence.split(/\d{4}-\d\d-\d\d/)[0] }).waitFor();
    await expect.poll(() => figure(page, "Suggested surcharge")).toBe(`€${quote.suggestedSurcharge.toFixed(2)}`);
    for (const slip of quote.slips) {
      const row = page.getByRole("table", { name: "Who slips" }).getByRole("row", { name: slip.ticket });
      await row.filter({ hasText: `${slip.minutes} min later` }).waitFor();
    }
    const moves = await page.getByRole("table", { name: "Pans that move" }).innerText();
    for (const { pan, change, becomes } of difference.pans) {
      if (["same", "done", "none"].includes(change)) continue;
      const line = moves.split("\n").find((one) => one.split(/[\t,] ?/).includes(pan));
      expect(line, pan).toContain(clockOf(becomes.doorOpensAt));
    }
  });

  it("saves nothing when it is dropped", async () => {
    const before = (await shop.service.ask("GET", "/pans")).body;
    const page = await opened({ width: 390 });
    await ask(page);
    await page.getByRole("button", { name: "Drop it" }).click();
    await page.getByText("Dropped. Nothing was saved.").waitFor();
    expect((await shop.service.ask("GET", "/pans")).body).toEqual(before);
    await expect.poll(async () => (await quoteOf()).state).not.toBe("searching");
  });

  it("is taken with the promise that the plan then gives", async () => {
    const page = await opened();
    await page.getByLabel("Ticket").fill("K-77");
    await ask(page);
    await settled(page);
    await page.getByRole("button", { name: "Accept the job" }).click();
    const said = await page.getByRole("status").filter({ hasText: "Taken." }).innerText();
    const { tickets } = (await shop.service.ask("GET", "/tickets")).body;
    const mine = tickets.find(({ ticket }: { ticket: string }) => ticket === "K-77");
    expect(said).toBe(`Taken. The plan promises ticket K-77 for ${clockOf(mine.promisedAt)}.`);
    const inForce = (await shop.service.ask("GET", "/plans/in-force")).body;
    expect(inForce.kind).toBe("quote");
  });

  it("is asked and taken by the keyboard alone", async () => {
    const page = await opened();
    await tabTo(page, "form select");
    await page.keyboard.press("ArrowDown");
    await tabTo(page, "form button:not([type])");
    await page.keyboard.press("Enter");
    await page.getByText("Earliest safe hand-over").waitFor();
    await expect.poll(() => page.evaluate("document.activeElement.textContent")).toBe("The answer");
    await settled(page);
    await tabTo(page, ".answer button");
    await page.keyboard.press("Enter");
    await page.getByRole("status").filter({ hasText: "Taken." }).waitFor();
  });

  it("tells what is wrong at its field, and asks again once it is right", async () => {
    const page = await opened({ width: 390, says: refusal });
    await page.getByLabel("Diameter, cm").fill("70");
    await page.getByRole("button", { name: "When can it be ready?" }).click();
    const field = page.locator(".field", { has: page.getByLabel("Diameter, cm") });
    await expect.poll(() => field.locator(".wrong").innerText()).toBe("8 to 60.");
    await expect.poll(() => page.getByLabel("Diameter, cm").getAttribute("aria-invalid")).toBe("true");
    await page.getByLabel("Diameter, cm").fill("59");
    await page.getByRole("button", { name: "When can it be ready?" }).click();
    await page.getByRole("alert").filter({ hasText: "fits no shelf" }).waitFor();
    expect(await barriers(page)).toEqual([]);
    await shoot(page, "rush-wrong-390-light");
    await page.getByRole("button", { name: "24 cm" }).click();
    await ask(page);
    await page.getByRole("alert").waitFor({ state: "detached" });
  });

  it("says so when the day changed before it was taken", async () => {
    const page = await opened({ says: refusal });
    await ask(page);
    const { body } = await shop.service.ask("GET", "/prices");
    const changed = { value: { ...body.value, gasPerKWh: 0.2 } };
    await shop.service.ask("PUT", "/prices", { body: changed, headers: { "If-Match": `"${body.version}"` } });
    await page.getByRole("button", { name: "Accept the job" }).click();
    await page.getByRole("alert").filter({ hasText: "The day has changed" }).waitFor();
    expect((await quoteOf()).inForce).toBe(false);
  });

  it.each([
    [1280, "light"],
    [390, "dark"],
  ] as const)("has no barriers, no small targets and nothing sideways at %i px, %s", async (width, scheme) => {
    const page = await opened({ width, scheme });
    await page.getByRole("button", { name: "Height, handle, bench work" }).click();
    await ask(page);
    await settled(page);
    await suitsEverybody(page, `rush-${width}-${scheme}`);
  });
});
