/** Why not together, in a real browser: the sentence, the curves, the windows and the tables are the service's answer. */
import type { Page } from "playwright-core";
import { describe, expect, it } from "vitest";
import type { ExplainAnswer } from "../../api/contract/explaining.ts";
import { atPage } from "../help/at-page.ts";
import type { OpeningAt } from "../help/at-page.ts";
import { suitsEverybody, tabTo } from "../help/page.ts";

const shop = atPage();

async function opened(opening: OpeningAt = {}): Promise<Page> {
  const page = await shop.open("#/why", opening);
  await page.locator("select option[value=B-11-A]").first().waitFor({ state: "attached" });
  return page;
}

async function pick(page: Page, one: string, other: string): Promise<void> {
  await page.getByLabel("Pan", { exact: true }).selectOption(one);
  await page.getByLabel("Together with").selectOption(other);
  await answered(page, other, await told(one, other));
}

/** Waits for this very answer: one to an earlier choice may stand, or come by, before it. */
async function answered(page: Page, other: string, { words }: ExplainAnswer): Promise<void> {
  if (!words.some((sentence) => sentence.includes(other))) throw new Error(`no sentence of the answer names ${other}`);
  for (const sentence of words) await page.locator(".verdict", { hasText: sentence }).waitFor();
}

const told = async (one: string, other: string): Promise<ExplainAnswer> =>
  (await shop.service.ask("POST", "/explain", { body: { one, other } })).body;

/** Pairs of the list until one is found that is answered so. */
async function pairThat(shares: boolean): Promise<{ one: string; other: string; answer: ExplainAnswer }> {
  const { pans } = (await shop.service.ask("GET", "/pans")).body;
  const ids: string[] = pans.map(({ pan }: { pan: { id: string } }) => pan.id);
  for (const one of ids)
    for (const other of ids.filter((id) => id > one)) {
      const answer = await told(one, other);
      if (answer.shares === shares && answer.firing !== null) return { one, other, answer };
    }
  throw new Error(`no pair of the day is answered ${shares}`);
}

/** What the page shows is what the service answers, to the digit shown. */
async function isShown(page: Page, { shares, words, firing }: ExplainAnswer): Promise<void> {
  const said = await page.locator(".verdict").innerText();
  expect(said).toContain(shares ? "Yes, they may share a firing." : "No, they may not share a firing.");
  for (const sentence of words) expect(said).toContain(sentence);
  if (firing === null) throw new Error("nothing is drawn");
  await page.locator("summary", { hasText: "The curves as a table" }).click();
  const rows = await page.getByRole("table", { name: "The curves as a table" }).locator("tbody tr").allInnerTexts();
  const five = firing.points.filter(({ minute }, i) => minute % 5 === 0 || i === firing.points.length - 1);
  expect(rows.map((row) => row.split(/\s*\t\s*/))).toEqual(
    five.map(({ minute, chamberC, oneC, otherC }) => [
      String(minute),
      ...[chamberC, oneC, otherC].map((c) => `${c.toFixed(0)} °C`),
    ]),
  );
  const figures = page.getByRole("table", { name: "The two beside each other" });
  const row = async (name: string): Promise<string[]> =>
    figures.getByRole("row", { name }).locator("td").allInnerTexts();
  expect(await row("Hottest metal")).toEqual(firing.metals.map(({ peakC }) => `${peakC.toFixed(0)} °C`));
  expect(await row("Soak it gets")).toEqual(firing.metals.map(({ soakMinutes }) => `${soakMinutes.toFixed(1)} min`));
  expect(await row("Metal window")).toEqual(
    firing.metals.map(({ lowestC, highestC }) => `${lowestC} °C to ${highestC} °C`),
  );
}

interface Drawn {
  readonly curves: number[][];
  readonly windows: { y: number; height: number }[];
}

/** Heights of the drawn curves of both metals, and of their shaded windows, in the drawing's own units. */
async function drawn(page: Page): Promise<Drawn> {
  return page.evaluate(`(() => {
    const svg = document.querySelector("svg.curve");
    const heights = (name) => svg.querySelector("polyline." + name).getAttribute("points").split(" ").map((point) => Number(point.split(",")[1]));
    const box = (name) => { const one = svg.querySelector("rect.window." + name); return { y: Number(one.getAttribute("y")), height: Number(one.getAttribute("height")) }; };
    return { curves: [heights("one"), heights("other")], windows: [box("one"), box("other")] };
  })()`);
}

describe("why not together", () => {
  it.each([
    [false, 1280, "light"],
    [true, 390, "dark"],
  ] as const)(
    "shows a pair that shares: %s, at %i px, %s, as the service answers it",
    async (shares, width, scheme) => {
      const { one, other, answer } = await pairThat(shares);
      const page = await opened({ width, scheme });
      await pick(page, one, other);
      await isShown(page, answer);
      await suitsEverybody(page, `why-${width}-${scheme}`);
    },
  );

  it("draws both metals over their shaded windows: inside the shade exactly while they are within the window", async () => {
    const { one, other, answer } = await pairThat(true);
    const page = await opened();
    await pick(page, one, other);
    const { curves, windows } = await drawn(page);
    for (const [i, metal] of (answer.firing?.metals ?? []).entries()) {
      const { y, height } = windows[i] ?? { y: 0, height: 0 };
      const inside = (curves[i] ?? []).map((at) => at >= y - 0.06 && at <= y + height + 0.06);
      const points = answer.firing?.points ?? [];
      expect(inside).toHaveLength(points.length);
      for (const [minute, point] of points.entries()) {
        const c = i === 0 ? point.oneC : point.otherC;
        // A tenth of the drawing's unit is a fifth of a degree.
        if (Math.min(Math.abs(c - metal.lowestC), Math.abs(c - metal.highestC)) < 0.3) continue;
        expect(inside[minute], `${metal.pan} at ${minute}`).toBe(c >= metal.lowestC && c <= metal.highestC);
      }
    }
  });

  it("asks about a pan and a load by the keyboard alone, and switches its units", async () => {
    const { loads } = (await shop.service.ask("GET", "/loads")).body;
    const load = loads.findLast(({ load: { pans } }: { load: { pans: { id: string }[] } }) =>
      pans.every(({ id }) => !id.startsWith("B-11-A")),
    );
    const page = await opened();
    await tabTo(page, "main select");
    await page.keyboard.type("B-11-A");
    await page.keyboard.press("Tab");
    await page.keyboard.type(`Load ${load.id}`);
    const firstTold = await told("B-11-A", load.id);
    await answered(page, load.id, firstTold);
    await expect
      .poll(() => page.locator(".yesno").innerText())
      .toBe(firstTold.shares ? "Yes, they may share a firing." : "No, they may not share a firing.");
    const { one, other, answer } = await pairThat(true);
    await pick(page, one, other);
    await page.getByLabel("Temperature").selectOption("°F");
    const peak = page.getByRole("row", { name: "Hottest metal" }).locator("td").first();
    await expect
      .poll(() => peak.innerText())
      .toBe(`${((answer.firing?.metals[0]?.peakC ?? 0) * 1.8 + 32).toFixed(0)} °F`);
  });
});
