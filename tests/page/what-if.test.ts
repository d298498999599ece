/** What if, in a real browser: cost, gas and lateness side by side as the service worked them out, and nothing saved. */
import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it, vi } from "vitest";
import type { WhatIf } from "../../api/contract/what-if.ts";
import { openBrowser } from "../help/browser.ts";
import { barriers, buildPage, openPage, shoot, sideways, smallTargets, tabTo } from "../help/page.ts";
import type { Opening } from "../help/page.ts";
import type { TestService } from "../help/service.ts";
import { shopInUse } from "../help/shop-in-use.ts";

// A busy machine opens pages slowly.
vi.setConfig({ testTimeout: 60_000 });

const now = "2026-06-09T07:05:00Z";
let browser: Browser;
let service: TestService;

beforeAll(async () => {
  await buildPage();
  browser = await openBrowser();
  service = await shopInUse(now);
}, 120_000);

afterAll(async () => {
  await browser?.close();
  await service?.stop();
});

async function opened(opening: Opening = {}) {
  const one = await openPage(browser, `${service.address}/#/what-if`, { now, ...opening });
  await one.page.getByRole("checkbox").first().waitFor();
  return one;
}

/** Asks by the button; answers the what-if's id. */
async function ask(page: Page): Promise<string> {
  const answered = page.waitForResponse((one) => one.url().endsWith("/what-ifs") && one.request().method() === "POST");
  await page.getByRole("button", { name: "Work it out" }).click();
  const { id } = (await (await answered).json()) as WhatIf;
  await page.getByText("All worked out.").waitFor({ timeout: 50_000 });
  return id;
}

describe("what if", () => {
  it.each([
    [1280, "light", 6],
    [390, "dark", 2],
  ] as const)("at %i px, %s, shows %i variants as worked out and saves nothing", async (width, scheme, many) => {
    const before = await Promise.all(["/plans", "/day", "/events"].map((path) => service.ask("GET", path)));
    const { page, complaints } = await opened({ width, scheme });
    await page.getByLabel("A shelf out").selectOption({ index: 1 });
    for (let left = 6 - many; left > 0; left--) await page.getByRole("checkbox", { checked: true }).first().click();
    const id = await ask(page);
    const read = (await service.ask("GET", `/what-ifs/${id}`)).body as WhatIf;
    const asked = [
      { kind: "wait", minutes: 15 },
      { kind: "wait", minutes: 30 },
      { kind: "wait", minutes: 60 },
      { kind: "sprayers", more: 1 },
      { kind: "slack", minutes: 3 },
      { kind: "shelf-out", oven: "box", shelf: "top" },
    ];
    expect(read.variants.map(({ variant }) => variant)).toEqual(asked.slice(-many));
    const rows = page.getByRole("table", { name: "Side by side" }).locator("tbody tr");
    for (const [i, { figures, difference, told }] of [read.base, ...read.variants].entries()) {
      const cells = await rows.nth(i).locator("td").allInnerTexts();
      if (figures === null) throw new Error(`row ${i} has no figures`);
      const shown = cells.map((cell) => cell.split("\n")[0]);
      expect(shown).toEqual([
        `€${figures.cost.toFixed(2)}`,
        `${figures.gasKWh.toFixed(1)} kWh`,
        String(figures.lateTickets),
        `${figures.latePanMinutes.toFixed(0)} min`,
        String(figures.leftOverPans),
        String(figures.firings),
        // Another day than today is named before its clock.
        expect.stringMatching(new RegExp(`${figures.finishAt?.slice(11, 16)}$`)),
      ]);
      if (difference === null) continue;
      const size = `€${Math.abs(difference.cost).toFixed(2)}`;
      const by = size === "€0.00" ? "the same" : `${size} ${difference.cost > 0 ? "more" : "less"}`;
      expect(cells[0]).toBe(`${shown[0]}\n${by}`);
      for (const sentence of told) expect(await page.getByText(sentence, { exact: true }).count()).toBeGreaterThan(0);
    }
    await shoot(page, `what-if-${width}-${scheme}`);
    expect(await barriers(page)).toEqual([]);
    expect(await smallTargets(page)).toEqual([]);
    expect(await sideways(page)).toBeLessThanOrEqual(0);
    expect(complaints).toEqual([]);
    const after = await Promise.all(["/plans", "/day", "/events"].map((path) => service.ask("GET", path)));
    expect(after.map(({ body }) => body)).toEqual(before.map(({ body }) => body));
    await page.close();
  });

  it("works out only what is ticked, by the keyboard alone", async () => {
    const { page, complaints } = await opened();
    for (let left = 4; left > 0; left--) {
      await tabTo(page, "input[type=checkbox]:checked");
      await page.keyboard.press("Space");
      await page.keyboard.press("Tab");
    }
    await tabTo(page, "form button");
    await page.keyboard.press("Enter");
    await page.getByText("All worked out.").waitFor({ timeout: 50_000 });
    const names = await page.getByRole("table", { name: "Side by side" }).locator("tbody th").allInnerTexts();
    expect(names).toEqual(["The day as it stands", "3 min more slack for burner off"]);
    expect(complaints).toEqual([]);
    await page.close();
  });
});
