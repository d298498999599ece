/** The load sheet in a real browser: drawn as planned, ticked, reported with undo, measured in two taps, printed on one page. */
import type { Page } from "playwright-core";
import { describe, expect, it } from "vitest";
import { atPage } from "../help/at-page.ts";
import type { OpeningAt } from "../help/at-page.ts";
import { shoot, suitsEverybody, tabTo } from "../help/page.ts";
import { morning } from "../help/planned-shop.ts";

const shop = atPage();

function fullest() {
  const load = shop.plan.loads.toSorted((a, b) => b.pans.length - a.pans.length)[0];
  if (load === undefined) throw new Error("the plan has no loads");
  return load;
}

async function opened(id: string, opening: OpeningAt = {}): Promise<Page> {
  const page = await shop.open(`#/load/${encodeURIComponent(id)}`, opening);
  await page.locator(".targets").waitFor();
  return page;
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
    const page = await opened(load.id, { width: 390, scheme: "dark" });
    await expect.poll(() => page.locator(".pan").count()).toBe(load.pans.length);
    const centres: string[] = await page.evaluate(
      "[...document.querySelectorAll('.pan text')].map((name) => name.getAttribute('x'))",
    );
    expect(centres.map(Number)).toEqual(expect.arrayContaining(load.pans.map(({ xCm }) => Number(xCm))));
    const shown = page.locator(".pans-of-load tbody tr");
    await expect.poll(() => shown.count()).toBe(load.pans.length);
    const rows = await shown.allInnerTexts();
    for (const [i, pan] of load.pans.entries()) {
      expect(rows[i]).toContain(pan.id);
      expect(rows[i]).toContain(clockOf(pan.inWindowAt ?? ""));
      expect(rows[i]).toContain(Number(pan.soakMinutes).toFixed(1));
      expect(rows[i]).toContain(`${Number(pan.peakC).toFixed(0)}`);
    }
    expect(await page.locator(".sheethead").innerText()).toContain(`${load.setPointC} °C`);
  });

  it("go from the warm shelf to the cool one", async () => {
    const page = await opened(fullest().id);
    const space = shop.day.ovens[0]?.space;
    const warmFirst = (space?.kind === "shelves" ? space.shelves : [])
      .toSorted((a, b) => (b.offsetC ?? 0) - (a.offsetC ?? 0))
      .map(({ id }) => id);
    const names = page.locator(".shelves figcaption strong");
    await expect.poll(async () => (await names.allInnerTexts()).map((name) => name.split(",")[0])).toEqual(warmFirst);
  });
});

/** How many pages the browser's own print makes. */
async function printed(page: Page): Promise<number> {
  const pdf = (await page.pdf({ preferCSSPageSize: true })).toString("latin1");
  return pdf.match(/\/Type\s*\/Page\b(?!s)/g)?.length ?? 0;
}

describe("the print", () => {
  it("has every load on one page with everything on it, its number huge, in black and white", async () => {
    const page = await opened(shop.plan.loads[0]?.id ?? "");
    await page.emulateMedia({ media: "print" });
    await shoot(page, "print");
    for (const load of shop.plan.loads) {
      await page.evaluate(`location.hash = "#/load/${load.id}"`);
      const number = page.locator("h1 .number", { hasText: new RegExp(`^${load.id}$`) });
      await number.waitFor();
      for (const pan of load.pans) await page.locator(".sheet", { hasText: pan.id }).waitFor();
      expect(await printed(page), load.id).toBe(1);
      // 48 points and more are read from across the room (common practice, no source).
      expect((await number.boundingBox())?.height).toBeGreaterThan(64);
      const text = await page.locator(".sheet").innerText();
      for (const part of [
        `${load.setPointC} °C`,
        clockOf(load.doorOpensAt),
        clockOf(load.unloadAt),
        load.pans.length > 0 ? "tape off" : "oven empty",
        "purge",
      ])
        expect(text).toContain(part);
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
  });
});

describe("the buttons", () => {
  it("mark nothing closed before all four ticks are set, and each is taken back by its undo", async () => {
    const load = shop.plan.loads[0];
    if (load === undefined) throw new Error("the plan has no loads");
    const { id } = load;
    shop.service.setNow(load.doorOpensAt);
    const page = await opened(id);
    const button = (name: string) => page.getByRole("button", { name, exact: true });
    await button("Opened").click();
    await page.getByText(/^Opened \d/).waitFor();
    expect(await button("Closed").isDisabled()).toBe(true);
    const ticks = page.locator(".gates").getByRole("checkbox");
    await expect.poll(() => ticks.count()).toBe(4);
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
    await expect.poll(() => standing(id)).toEqual(["load-opened", "load-closed", "burner-off", "load-out"]);
    for (const name of ["Out", "Burner off", "Closed", "Opened"]) {
      await button(`Undo ${name}`).click();
      await button(name).waitFor();
    }
    await expect.poll(() => standing(id)).toEqual([]);
  });

  it("keep a reading in two taps", async () => {
    const load = fullest();
    const page = await opened(load.id, { width: 390 });
    await page.getByRole("group", { name: "What was measured" }).getByRole("button").first().click();
    const value = page.getByRole("group", { name: "What it showed" }).getByRole("button").nth(5);
    const shown = Number(await value.innerText());
    await value.click();
    await page.getByText(`${shown} °C kept`).waitFor();
    const { readings } = (await shop.service.ask("GET", `/readings?oven=${load.oven}`)).body;
    expect(readings.at(-1).reading).toMatchObject({ load: load.id, metalC: shown });
  });

  it("are reached by the keyboard alone", async () => {
    const load = shop.plan.loads[0];
    shop.service.setNow(load?.doorOpensAt ?? morning);
    const page = await opened(load?.id ?? "");
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
  });
});

it.each([
  [1280, "light"],
  [1280, "dark"],
  [390, "light"],
  [390, "dark"],
] as const)("has no barriers, no small targets and nothing sideways, %i px, %s", async (width, scheme) => {
  const page = await opened(fullest().id, { width, scheme });
  await suitsEverybody(page);
});
