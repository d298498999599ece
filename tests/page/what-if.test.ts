/** What if, in a real browser: cost, gas and lateness side by side as the service worked them out, and nothing saved. */
import type { Page } from "playwright-core";
import { describe, expect, it, vi } from "vitest";
import type { WhatIf } from "../../api/contract/what-if.ts";
import { atPage } from "../help/at-page.ts";
import type { OpeningAt } from "../help/at-page.ts";
import { suitsEverybody, tabTo } from "../help/page.ts";

// Each variant is a search of its own.
const patienceMs = 200_000;
vi.setConfig({ testTimeout: 2 * patienceMs });

const shop = atPage();

async function opened(opening: OpeningAt = {}): Promise<Page> {
  const page = await shop.open("#/what-if", opening);
  await page.getByRole("checkbox").first().waitFor();
  return page;
}

/** Asks by the button; answers the what-if's id. */
async function ask(page: Page): Promise<string> {
  const answered = page.waitForResponse((one) => one.url().endsWith("/what-ifs") && one.request().method() === "POST");
  await page.getByRole("button", { name: "Work it out" }).click();
  const { id } = (await (await answered).json()) as WhatIf;
  await page.getByText("All worked out.").waitFor({ timeout: patienceMs });
  return id;
}

describe("what if", () => {
  it.each([
    [1280, "light", 6],
    [390, "dark", 2],
  ] as const)("at %i px, %s, shows %i variants as worked out and saves nothing", async (width, scheme, many) => {
    const before = await Promise.all(["/plans", "/day", "/events"].map((path) => shop.service.ask("GET", path)));
    const page = await opened({ width, scheme });
    await page.getByLabel("A shelf out").selectOption({ index: 1 });
    for (let left = 6 - many; left > 0; left--) await page.getByRole("checkbox", { checked: true }).first().click();
    const id = await ask(page);
    const read = (await shop.service.ask("GET", `/what-ifs/${id}`)).body as WhatIf;
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
    await suitsEverybody(page, `what-if-${width}-${scheme}`);
    const after = await Promise.all(["/plans", "/day", "/events"].map((path) => shop.service.ask("GET", path)));
    expect(after.map(({ body }) => body)).toEqual(before.map(({ body }) => body));
  });

  it("works out only what is ticked, by the keyboard alone", async () => {
    const page = await opened();
    for (let left = 4; left > 0; left--) {
      await tabTo(page, "input[type=checkbox]:checked");
      await page.keyboard.press("Space");
      await page.keyboard.press("Tab");
    }
    await tabTo(page, "form button");
    await page.keyboard.press("Enter");
    await page.getByText("All worked out.").waitFor({ timeout: patienceMs });
    const names = page.getByRole("table", { name: "Side by side" }).locator("tbody th");
    await expect.poll(() => names.allInnerTexts()).toEqual(["The day as it stands", "3 min more slack for burner off"]);
  });
});
