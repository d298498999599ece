/** The load sheet in a real browser: drawn as planned, ticked, reported with undo, measured in two taps, printed on one page. */
import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it, vi } from "vitest";
import { openBrowser } from "../help/browser.ts";
import { barriers, buildPage, openPage, sideways, smallTargets, tabTo } from "../help/page.ts";
import type { Opening } from "../help/page.ts";
import { plannedShop } from "../help/planned-shop.ts";
import type { PlannedShop } from "../help/planned-shop.ts";

// A busy machine opens pages slowly.
vi.setConfig({ testTimeout: 120_000 });

const now = "2026-06-09T07:05:00Z";
let browser: Browser;
let shop: PlannedShop;

beforeAll(async () => {
  await buildPage();
  browser = await openBrowser();
  shop = await plannedShop({ now });
}, 180_000);

afterAll(async () => {
  await browser?.close();
  await shop?.service.stop();
});

function loads() {
  return shop.search.plan?.loads ?? [];
}

function fullest() {
  const load = loads().toSorted((a, b) => b.pans.length - a.pans.length)[0];
  if (load === undefined) throw new Error("the plan has no loads");
  return load;
}

async function opened(id: string, opening: Opening = {}) {
  const one = await openPage(browser, `${shop.service.address}/#/load/${encodeURIComponent(id)}`, { now, ...opening });
  await one.page.locator(".targets").waitFor();
  return one;
}

const clockOf = (instant: string): string => instant.slice(11, 16);

async function standing(load: string): Promise<string[]> {
  const { events } = (await shop.service.ask("GET", "/events?after=0")).body;
  const undone = new Set(events.map(({ undoes }: { undoes: number | null }) => undoes));
  return events
    .filter(
      (one: { id: number; subject: string; undoes: number | null }) =>
        one.subject === load && one.undoes === null && !undone.has(one.id),
    )
    .map(({ kind }: { kind: string }) => kind);
}

describe("the drawing and the table", () => {
  it("have every pan where the plan puts it, and say set-point, windows, soak and peak as the plan does", async () => {
    const load = fullest();
    const { page } = await opened(load.id, { width: 390, scheme: "dark" });
    expect(await page.locator(".pan").count()).toBe(load.pans.length);
    const centres: string[] = await page.evaluate(
      "[...document.querySelectorAll('.pan text')].map((name) => name.getAttribute('x'))",
    );
    expect(centres.map(Number)).toEqual(expect.arrayContaining(load.pans.map(({ xCm }) => Number(xCm))));
    const rows = await page.locator(".pans-of-load tbody tr").allInnerTexts();
    expect(rows).toHaveLength(load.pans.length);
    for (const [i, pan] of load.pans.entries()) {
      expect(rows[i]).toContain(pan.id);
      expect(rows[i]).toContain(clockOf(pan.inWindowAt ?? ""));
      expect(rows[i]).toContain(Number(pan.soakMinutes).toFixed(1));
      expect(rows[i]).toContain(`${Number(pan.peakC).toFixed(0)}`);
    }
    expect(await page.locator(".sheethead").innerText()).toContain(`${load.setPointC} °C`);
    await page.close();
  });

  it("go from the warm shelf to the cool one", async () => {
    const { page } = await opened(fullest().id);
    const space = shop.day.ovens[0]?.space;
    const warmFirst = (space?.kind === "shelves" ? space.shelves : [])
      .toSorted((a, b) => (b.offsetC ?? 0) - (a.offsetC ?? 0))
      .map(({ id }) => id);
    const names = await page.locator(".shelves figcaption strong").allInnerTexts();
    expect(names.map((name) => name.split(",")[0])).toEqual(warmFirst);
    await page.close();
  });
});

/** How many pages the browser's own print makes. */
async function printed(page: Page): Promise<number> {
  const pdf = (await page.pdf({ preferCSSPageSize: true })).toString("latin1");
  return pdf.match(/\/Type\s*\/Page\b(?!s)/g)?.length ?? 0;
}

describe("the print", () => {
  it("has every load on one page with everything on it, its number huge, in black and white", async () => {
    const { page, complaints } = await opened(loads()[0]?.id ?? "");
    await page.emulateMedia({ media: "print" });
    for (const load of loads()) {
      await page.evaluate(`location.hash = "#/load/${load.id}"`);
      const number = page.locator("h1 .number", { hasText: new RegExp(`^${load.id}$`) });
      await number.waitFor();
      expect(await printed(page), load.id).toBe(1);
      // 48 points and more are read from across the room (common practice, no source).
      expect((await number.boundingBox())?.height).toBeGreaterThan(64);
      const text = await page.locator(".sheet").innerText();
      for (const part of [
        `${load.setPointC} °C`,
        clockOf(load.doorOpensAt),
        clockOf(load.unloadAt),
        "tape off",
        "purge",
      ])
        expect(text).toContain(part);
      for (const pan of load.pans) expect(text).toContain(pan.id);
      expect(await page.locator(".cautions:visible").count()).toBe(1);
    }
    const colours: string[] = await page.evaluate(`[...document.querySelectorAll(".sheet *")]
      .filter((one) => one.checkVisibility())
      .flatMap((one) => [getComputedStyle(one).color, getComputedStyle(one).backgroundColor])`);
    const coloured = colours.filter((one) => {
      const [red, green, blue, alpha = "1"] = one.match(/[\d.]+/g) ?? [];
      return alpha !== "0" && (red !== green || green !== blue);
    });
    expect([...new Set(coloured)]).toEqual([]);
    expect(complaints).toEqual([]);
    await page.close();
  });
});

describe("the buttons", () => {
  it("mark nothing closed before all four ticks are set, and each is taken back by its undo", async () => {
    const load = loads()[0];
    if (load === undefined) throw new Error("the plan has no loads");
    const { id } = load;
    shop.service.setNow(load.doorOpensAt);
    const { page, complaints } = await opened(id);
    const button = (name: string) => page.getByRole("button", { name, exact: true });
    await button("Opened").click();
    await page.getByText(/^Opened \d/).waitFor();
    expect(await button("Closed").isDisabled()).toBe(true);
    const ticks = page.locator(".gates").getByRole("checkbox");
    expect(await ticks.count()).toBe(4);
    for (const tick of await ticks.all()) {
      expect(await button("Closed").isDisabled()).toBe(true);
      await tick.check();
    }
    const moments = [
      ["Closed", load.doorClosesAt],
      ["Burner off", load.burnerOffAt ?? load.unloadAt],
      ["Out", load.unloadAt],
    ] as const;
    for (const [name, at] of moments) {
      shop.service.setNow(at);
      await button(name).click();
      await page.getByText(new RegExp(`^${name} \\d`)).waitFor();
    }
    expect(await standing(id)).toEqual(["load-opened", "load-closed", "burner-off", "load-out"]);
    for (const name of ["Out", "Burner off", "Closed", "Opened"]) {
      await button(`Undo ${name}`).click();
      await button(name).waitFor();
    }
    expect(await standing(id)).toEqual([]);
    expect(complaints).toEqual([]);
    await page.close();
  });

  it("keep a reading in two taps", async () => {
    const load = fullest();
    const { page } = await opened(load.id, { width: 390 });
    await page.getByRole("group", { name: "What was measured" }).getByRole("button").first().click();
    const value = page.getByRole("group", { name: "What it showed" }).getByRole("button").nth(5);
    const shown = Number(await value.innerText());
    await value.click();
    await page.getByText(`${shown} °C kept`).waitFor();
    const { readings } = (await shop.service.ask("GET", `/readings?oven=${load.oven}`)).body;
    expect(readings.at(-1).reading).toMatchObject({ load: load.id, metalC: shown });
    await page.close();
  });

  it("are reached by the keyboard alone", async () => {
    const load = loads()[0];
    shop.service.setNow(load?.doorOpensAt ?? now);
    const { page } = await opened(load?.id ?? "");
    for (let i = 0; i < 4; i++) {
      await tabTo(page, `.gates label:nth-of-type(${i + 1}) input`);
      await page.keyboard.press("Space");
    }
    await tabTo(page, ".steps button");
    await page.keyboard.press("Enter");
    await page.getByText(/^Opened \d/).waitFor();
    await tabTo(page, ".steps .said button");
    await page.keyboard.press("Enter");
    await page.getByRole("button", { name: "Opened", exact: true }).waitFor();
    await page.close();
  });
});

it.each([
  [1280, "light"],
  [1280, "dark"],
  [390, "light"],
  [390, "dark"],
] as const)("has no barriers, no small targets and nothing sideways, %i px, %s", async (width, scheme) => {
  const { page, complaints } = await opened(fullest().id, { width, scheme });
  expect(await barriers(page)).toEqual([]);
  expect(await smallTargets(page)).toEqual([]);
  expect(await sideways(page)).toBeLessThanOrEqual(0);
  expect(complaints).toEqual([]);
  await page.close();
});
