/** The shop in a real browser: every figure of the day file can be read and changed, with range and reason; nobody's change is lost. */
import type { Page } from "playwright-core";
import { describe, expect, it } from "vitest";
import type { DayFile } from "../../api/contract/day.ts";
import { atPage, refusal } from "../help/at-page.ts";
import type { OpeningAt } from "../help/at-page.ts";
import { shoot, suitsEverybody, tabTo } from "../help/page.ts";
import { morning } from "../help/planned-shop.ts";

const shop = atPage();

async function opened(part: string, opening: OpeningAt = {}): Promise<Page> {
  const page = await shop.open(`#/shop${part}`, opening);
  await page
    .locator(part === "" ? ".ways a" : "form .field")
    .first()
    .waitFor();
  return page;
}

const stored = async (): Promise<DayFile> => (await shop.service.ask("GET", "/day")).body;

/** Every number and where it stands. */
function numbers(value: unknown, at = ""): { at: string; n: number }[] {
  if (typeof value === "number") return [{ at, n: value }];
  if (typeof value !== "object" || value === null) return [];
  return Object.entries(value).flatMap(([key, inside]) => numbers(inside, at === "" ? key : `${at}.${key}`));
}

/** What the figure fields hold, as numbers; each must say its range and why it matters. */
async function fieldsOf(page: Page): Promise<number[]> {
  const fields = await page.locator("main .field:has(input[inputmode])").all();
  const values: number[] = [];
  for (const field of fields) {
    const text = await field.locator("input").inputValue();
    if (text !== "") values.push(Number(text));
    const label = await field.locator("label").innerText();
    const [hints = ""] = await field.locator(".fine[id$=hints]").allInnerTexts();
    expect(hints, label).toMatch(/^-?[\d.]+ to [\d.]+\..* [A-Z0-9].+[.?]/);
  }
  return values;
}

const save = (page: Page): Promise<void> => page.getByRole("button", { name: "Save", exact: true }).first().click();

describe("the shop", () => {
  it.each([
    ["/oven/box", (day: DayFile) => ({ ...day.ovens[0], cycle: { ...day.ovens[0]?.cycle, startC: undefined } })],
    ["/coating/two-coat", (day: DayFile) => day.coatings[0]],
    ["/prices", (day: DayFile) => [day.prices, { ...day.gas, unit: undefined }]],
    ["/work", (day: DayFile) => [day.booth, day.prep, day.finishMinutes, day.ambientC]],
  ] as const)("shows every figure of %s with its range and reason", async (part, of) => {
    const page = await opened(part);
    const held = numbers(of(await stored())).map(({ n }) => n);
    const byValue = (a: number, b: number): number => a - b;
    await expect.poll(async () => (await fieldsOf(page)).toSorted(byValue)).toEqual(held.toSorted(byValue));
  });

  it("saves a changed figure with a decimal comma, and keeps everything else as it was written", async () => {
    const page = await opened("/oven/box");
    const [before] = (await stored()).ovens;
    await page.getByLabel("Loss through the walls").fill("7,5");
    await save(page);
    await page.getByRole("status").filter({ hasText: "Saved. It counts from the next plan on." }).waitFor();
    const [after] = (await stored()).ovens;
    expect(after).toEqual({ ...before, cycle: { ...before?.cycle, wallLossWPerK: 7.5 } });
  });

  it("tells what is wrong at its field, saves nothing, and tells what is unlikely though saved", async () => {
    const page = await opened("/coating/two-coat", { says: refusal });
    const before = await stored();
    const low = page.getByLabel("Cures from").first();
    await low.fill("300");
    await save(page);
    await page.getByRole("alert").filter({ hasText: "Nothing was saved." }).waitFor();
    const field = page.locator(".field", { has: page.getByLabel("Spoils above") }).first();
    await field.locator(".wrong", { hasText: /\S/ }).waitFor();
    expect(await stored()).toEqual(before);
    await low.fill("250");
    await save(page);
    await page.getByRole("status").filter({ hasText: "Saved" }).waitFor();
    expect((await stored()).coatings[0]?.coats[0]?.bake?.metalLowC).toBe(250);
  });

  it("shows plainly what somebody else saved in between; either way nothing is lost unseen", async () => {
    const page = await opened("/prices", { says: refusal });
    const gas = page.getByLabel("Gas, a kWh");
    const between = async (gasPerKWh: number): Promise<void> => {
      const { body } = await shop.service.ask("GET", "/prices");
      const headers = { "If-Match": `"${body.version}"` };
      const value = { ...body.value, gasPerKWh, movePerPan: 2 };
      expect((await shop.service.ask("PUT", "/prices", { body: { value }, headers })).status).toBe(200);
    };
    await gas.fill("0.15");
    await between(0.2);
    await save(page);
    await page.getByRole("alert").filter({ hasText: "Somebody else saved this" }).waitFor();
    const rows = await page.getByRole("table", { name: "Where the two differ" }).locator("tbody tr").all();
    const cells = await Promise.all(rows.map((row) => row.locator("th, td").allInnerTexts()));
    expect(cells).toEqual([
      ["Gas, a kWh", "0.15", "0.2"],
      ["A pan moved by a new plan", "1", "2"],
    ]);
    await shoot(page, "shop-conflict-1280-light");
    await page.getByRole("button", { name: "Take theirs" }).click();
    await page.getByRole("alert").waitFor({ state: "detached" });
    await expect.poll(() => gas.inputValue()).toBe("0.2");
    await gas.fill("0.16");
    await between(0.21);
    await save(page);
    await page.getByRole("button", { name: "Keep mine where I changed it" }).click();
    await page.getByRole("status").filter({ hasText: "Saved" }).waitFor();
    expect((await stored()).prices).toMatchObject({ gasPerKWh: 0.16 });
  });

  it("tells what somebody else saved also where it was read just before, and came late", async () => {
    const page = await shop.browser.newPage({ serviceWorkers: "block" });
    await page.clock.setFixedTime(morning);
    await page.goto(`${shop.service.address}#/shop/prices`);
    const gas = page.getByLabel("Gas, a kWh");
    await gas.fill("0.15");
    let letThrough = (): void => undefined;
    const isLet = new Promise<void>((resolve) => (letThrough = resolve));
    let late = 0;
    await page.route("**/prices", async (route) => {
      if (route.request().method() === "GET" && late++ === 0) await isLet;
      await route.continue();
    });
    await page.getByRole("button", { name: "Drop my changes" }).first().click();
    await expect.poll(() => late).toBe(1);
    await gas.fill("0.16");
    const { body } = await shop.service.ask("GET", "/prices");
    const headers = { "If-Match": `"${body.version}"` };
    const value = { ...body.value, gasPerKWh: 0.21 };
    expect((await shop.service.ask("PUT", "/prices", { body: { value }, headers })).status).toBe(200);
    const answered = page.waitForResponse((response) => response.url().endsWith("/prices"));
    letThrough();
    await (await answered).finished();
    await save(page);
    await page.getByRole("alert").filter({ hasText: "Somebody else saved this" }).waitFor();
    expect((await stored()).prices).toMatchObject({ gasPerKWh: 0.21 });
    await page.close();
  });

  it("draws every window on one temperature line, to scale", async () => {
    const page = await opened("");
    const { coatings } = await stored();
    const windows = coatings.flatMap(({ coats }) =>
      coats.flatMap(({ bake }) =>
        bake.metalLowC == null || bake.metalHighC == null ? [] : [[bake.metalLowC, bake.metalHighC]],
      ),
    );
    await expect.poll(() => page.locator(".windows rect").count()).toBe(windows.length);
    const bars: { from: number; to: number }[] = await page.evaluate(
      `[...document.querySelectorAll(".windows rect")].map((bar) => { const x = parseFloat(bar.getAttribute("x")); return { from: x, to: x + parseFloat(bar.getAttribute("width")) }; })`,
    );
    const highest = Math.max(...windows.map(([, high]) => high ?? 0));
    // The line ends at the next 50 °C that leaves 20 °C of room.
    const end = Math.ceil((highest + 20) / 50) * 50;
    expect(bars.map(({ from, to }) => [Math.round((from * end) / 100), Math.round((to * end) / 100)])).toEqual(windows);
    await page.locator("summary").click();
    const rows = page.getByRole("table", { name: "The windows as a table" }).locator("tbody tr");
    await expect
      .poll(async () => (await rows.allInnerTexts()).map((row) => row.split("\t")[2]))
      .toEqual(windows.map(([low, high]) => `${low} °C to ${high} °C`));
  });

  it("is reached and changed by the keyboard alone, in the chosen units, stored as before", async () => {
    const page = await opened("");
    await page.getByLabel("Temperature").selectOption("°F");
    await tabTo(page, "a[href='#/shop/oven/box']");
    await page.keyboard.press("Enter");
    await page.getByLabel("Highest set-point").waitFor();
    await expect.poll(() => page.getByLabel("Highest set-point").inputValue()).toBe("806");
    await page.getByLabel("Highest set-point").focus();
    await page.keyboard.press("ControlOrMeta+a");
    await page.keyboard.type("770");
    await page.keyboard.press("Enter");
    await page.getByRole("status").filter({ hasText: "Saved" }).waitFor();
    const [oven] = (await stored()).ovens;
    expect(oven?.cycle).toMatchObject({ setPointMaxC: 410, doorLimitC: 220 });
  });

  it("changes the hours and adds an interval", async () => {
    const page = await opened("/hours", { width: 390 });
    const form = page.locator("form").first();
    await form.getByLabel("To").fill("2026-06-09T16:00");
    await form.getByRole("button", { name: "Another interval" }).click();
    await form.getByLabel("From").nth(1).fill("2026-06-09T17:00");
    await form.getByLabel("To").nth(1).fill("2026-06-09T19:00");
    await save(page);
    await page.getByRole("status").filter({ hasText: "Saved" }).waitFor();
    expect((await stored()).staffed).toEqual([
      { from: "2026-06-09T08:00", to: "2026-06-09T16:00" },
      { from: "2026-06-09T17:00", to: "2026-06-09T19:00" },
    ]);
  });

  it.each([
    ["", 1280, "light"],
    ["/oven/box", 1280, "light"],
    ["/coating/cast-two-coat", 390, "dark"],
    ["/oven/box", 390, "light"],
    ["/prices", 390, "dark"],
    ["/hours", 390, "light"],
  ] as const)(
    "has no barriers, no small targets and nothing sideways at '%s', %i px, %s",
    async (part, width, scheme) => {
      const page = await opened(part, { width, scheme });
      await suitsEverybody(page, `shop${part.replaceAll("/", "-")}-${width}-${scheme}`);
    },
  );
});
