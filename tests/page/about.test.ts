/** The page about the program: every caution of the trade, whose word rules, and true licences. */
import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { atPage } from "../help/at-page.ts";
import { suitsEverybody } from "../help/page.ts";

const shop = atPage();

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
      const page = await shop.open("#/about", { width, scheme });
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
      const libraries = Object.keys(packageAt("").dependencies).toSorted();
      const rows = page.getByRole("table", { name: "Made with" }).locator("tbody tr");
      await expect
        .poll(async () => (await rows.allInnerTexts()).map((row) => row.split(/\s+/)))
        .toEqual(
          libraries.map((library) => {
            const { version, license } = packageAt(`node_modules/${library}/`);
            return [library, version, license];
          }),
        );
      await suitsEverybody(page, `about-${width}-${scheme}`);
    },
  );
});
