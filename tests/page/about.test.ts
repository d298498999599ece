/** The page about the program: every caution of the trade, whose word rules, and true licences. */
import { readFileSync } from "node:fs";
import type { Browser } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it, vi } from "vitest";
import { openBrowser } from "../help/browser.ts";
import { barriers, buildPage, openPage, shoot, sideways, smallTargets } from "../help/page.ts";
import { testService } from "../help/service.ts";
import type { TestService } from "../help/service.ts";

// A busy machine opens pages slowly.
vi.setConfig({ testTimeout: 60_000 });

let browser: Browser;
let service: TestService;

beforeAll(async () => {
  await buildPage();
  browser = await openBrowser();
  service = await testService();
}, 120_000);

afterAll(async () => {
  await browser?.close();
  await service?.stop();
});

interface Package {
  readonly version: string;
  readonly license: string;
  readonly dependencies: Readonly<Record<string, string>>;
}

const packageAt = (path: string): Package =>
  JSON.parse(readFileSync(new URL(`../../${path}package.json`, import.meta.url), "utf8")) as Package;

describe("about", () => {
  it.each([
    [1280, "light"],
    [390, "dark"],
  ] as const)(
    "says what rules, every caution and every licence, without barriers, %i px, %s",
    async (width, scheme) => {
      const { page, complaints } = await openPage(browser, `${service.address}/#/about`, { width, scheme });
      await page.getByText(`Version ${packageAt("").version}.`).waitFor();
      const text = await page.locator("main").innerText();
      // Fluoropolymer decomposes with harmful fumes from about 330 °C, worse from 450 °C on (common practice in the trade's
      // safety guides, no single source); the other cautions are common practice, no source.
      for (const caution of [
        /never shorten/i,
        /oven's plate/,
        /local codes/,
        /licensed gas and electrical practice/,
        /330 °C/,
        /450 °C/,
        /birds/i,
        /carbon monoxide/i,
        /bottled gas/i,
        /looks cold/,
        /burst/,
        /respirator/,
        /no flame/i,
        /purge again in full/i,
        /food/i,
        /takes no side/,
      ])
        expect(text).toMatch(caution);
      expect(text).not.toMatch(/resolved|is safe|guarantee/i);
      await page.locator("summary").click();
      const rows = await page.getByRole("table", { name: "Made with" }).locator("tbody tr").allInnerTexts();
      const libraries = Object.keys(packageAt("").dependencies).toSorted();
      expect(rows.map((row) => row.split(/\s+/))).toEqual(
        libraries.map((library) => {
          const { version, license } = packageAt(`node_modules/${library}/`);
          return [library, version, license];
        }),
      );
      await shoot(page, `about-${width}-${scheme}`);
      expect(await barriers(page)).toEqual([]);
      expect(await smallTargets(page)).toEqual([]);
      expect(await sideways(page)).toBeLessThanOrEqual(0);
      expect(complaints).toEqual([]);
      await page.close();
    },
  );
});
