/** The waiting pans in a real browser: entered by hand or by a list, what happened to them, the units they are shown in. */
import type { Page } from "playwright-core";
import { describe, expect, it } from "vitest";
import { atPage, refusal } from "../help/at-page.ts";
import type { OpeningAt } from "../help/at-page.ts";
import { sideways, suitsEverybody } from "../help/page.ts";

const shop = atPage();

async function opened(opening: OpeningAt = {}): Promise<Page> {
  const page = await shop.open("#/pans", opening);
  await page.getByRole("button", { name: "Add a pan" }).click();
  await page.getByRole("heading", { name: "Add a pan" }).waitFor();
  return page;
}

const stored = async (id: string) => (await shop.service.ask("GET", `/pans/${id}`)).body;

function rowOf(page: Page, id: string) {
  return page.getByRole("row").filter({ has: page.getByRole("rowheader", { name: id, exact: true }) });
}

async function reportOn(page: Page, id: string): Promise<void> {
  await rowOf(page, id)
    .getByRole("button", { name: `Report ${id}` })
    .click();
  await page.getByRole("heading", { name: `What happened to ${id}?` }).waitFor();
}

describe("entry by hand", () => {
  it("suggests the mass by metal and diameter, and takes the one that was weighed", async () => {
    const page = await opened();
    await page.getByLabel("Ticket", { exact: true }).fill("Z-9");
    await page.getByRole("button", { name: "Die-cast aluminium" }).click();
    await page.getByRole("button", { name: "24 cm" }).click();
    const mass = page.getByLabel("Mass of one, kg");
    // 1.00 kg: the preset of a die-cast 24 cm body.
    await expect.poll(() => mass.inputValue()).toBe("1");
    await mass.fill("0,93");
    await page.getByLabel(/No closed hollow part/).check();
    await page.getByRole("button", { name: "Add the pan" }).click();
    await rowOf(page, "Z-9-A").waitFor();
    expect((await stored("Z-9-A")).pan).toMatchObject({
      ticket: "Z-9",
      shape: { kind: "disc", diameterCm: 24 },
      massKg: 0.93,
      material: "aluminium",
    });
    // The next pan of the ticket has its name already.
    await expect.poll(() => page.getByLabel("Pan", { exact: true }).inputValue()).toBe("Z-9-B");
  });

  it("gives a cast iron pan the room of the handle that stays on", async () => {
    const page = await opened();
    await page.getByLabel("Pan", { exact: true }).fill("Z-IRON");
    await page.getByRole("button", { name: "Cast iron" }).click();
    await page.getByRole("button", { name: "26 cm" }).click();
    await page.getByLabel(/No closed hollow part/).check();
    await page.getByRole("button", { name: "Add the pan" }).click();
    await rowOf(page, "Z-IRON").waitFor();
    expect((await stored("Z-IRON")).pan.shape).toEqual({ kind: "rectangle", widthCm: 26, depthCm: 26 + 16 });
  });

  it("says under the field what is wrong, and sends nothing", async () => {
    const page = await opened();
    await page.getByLabel("Pan", { exact: true }).fill("Z-BAD");
    await page.getByLabel("Diameter, cm").fill("280");
    await page.getByText("5 to 100.", { exact: true }).first().waitFor();
    await page.getByRole("button", { name: "Add the pan" }).click();
    expect((await shop.service.ask("GET", "/pans/Z-BAD")).status).toBe(404);
  });
});

describe("units", () => {
  it("switch labels and values everywhere, and what is stored stays metric", async () => {
    const page = await opened();
    const before = (await shop.service.ask("GET", "/pans")).body;
    const units = page.locator("footer.units");
    await units.getByLabel("Length").selectOption("in");
    await units.getByLabel("Mass").selectOption("lb");
    await units.getByLabel("Temperature").selectOption("°F");
    await page.getByLabel("Metal may reach at most, °F").waitFor();
    // 20 cm = 7.87 in, 0.42 kg = 0.926 lb: 2.54 cm and 0.45359237 kg by definition (international yard and pound, 1959).
    await rowOf(page, "B-11-A").filter({ hasText: "7.9 in" }).filter({ hasText: "0.93 lb" }).waitFor();
    expect((await shop.service.ask("GET", "/pans")).body).toEqual(before);
    await page.getByLabel("Pan", { exact: true }).fill("Z-INCH");
    await page.getByLabel("Diameter, in").fill("11");
    await page.getByLabel("Mass of one, lb").fill("2");
    await page.getByLabel("Metal may reach at most, °F").fill("842");
    await page.getByLabel(/No closed hollow part/).check();
    await page.getByRole("button", { name: "Add the pan" }).click();
    await rowOf(page, "Z-INCH").waitFor();
    const { pan } = await stored("Z-INCH");
    expect(pan.shape.diameterCm).toBeCloseTo(27.94, 9);
    expect(pan.massKg).toBeCloseTo(0.90718474, 9);
    expect(pan.metalLimitC).toBeCloseTo(450, 9);
    // Gas by the therm: 29.307 107 kWh (100 000 Btu of the International Table).
    await units.getByLabel("Gas").selectOption("therm");
    await page.evaluate('location.hash = "#/"');
    await page.getByText(`${(shop.plan.gas.kWh / 29.307107).toFixed(2)} therm in all`).waitFor();
    await expect.poll(() => page.locator("main").innerText()).not.toMatch(/\d °C|\d kWh/);
  });
});

describe("a list", () => {
  it("shows every bad row and adds none", async () => {
    const page = await opened({ width: 390, says: refusal });
    await page.getByText("Add many").click();
    await page
      .getByLabel("Or paste here")
      .fill(
        [
          "id;coating;readyAt;shape;diameterCm;heightCm;massKg;material",
          "Y-1;two-coat;2026-06-09T08:00;disc;24;5;0,6;aluminium",
          "Y-2;two-coat;2026-06-09T08:00;disc;24;5;heavy;aluminium",
          "Y-3;three-coat;2026-06-09T08:00;disc;24;5;0,6;aluminium",
          "Y-1;two-coat;2026-06-09T08:00;disc;24;5;0,6;aluminium",
        ].join("\n"),
      );
    await page.getByRole("button", { name: "Add the list" }).click();
    await page.getByRole("alert").filter({ hasText: "Nothing was added" }).waitFor();
    for (const row of [3, 4, 5])
      await page
        .locator(".import tbody tr", { hasText: new RegExp(`row ${row}\\b`, "i") })
        .first()
        .waitFor();
    expect((await shop.service.ask("GET", "/pans/Y-1")).status).toBe(404);
    expect(await sideways(page)).toBeLessThanOrEqual(0);
  });

  it("takes what a spreadsheet puts on the clipboard, and a file", async () => {
    const page = await opened();
    await page.getByText("Add many").click();
    const table = (id: string): string =>
      `id\tcoating\treadyAt\tshape\tdiameterCm\theightCm\tmassKg\tmaterial\n${id}\ttwo-coat\t2026-06-09T08:00\tdisc\t24\t5\t0,6\taluminium\n`;
    await page.getByLabel("Or paste here").fill(table("Y-7"));
    await page.getByRole("button", { name: "Add the list" }).click();
    await rowOf(page, "Y-7").waitFor();
    expect((await stored("Y-7")).pan.massKg).toBe(0.6);
    await page
      .getByLabel("CSV file")
      .setInputFiles({ name: "pans.csv", mimeType: "text/csv", buffer: Buffer.from(table("Y-8")) });
    await expect.poll(() => page.getByLabel("Or paste here").inputValue()).toContain("Y-8");
    await page.getByRole("button", { name: "Add the list" }).click();
    await rowOf(page, "Y-8").waitFor();
  });
});

describe("what happened to a pan", () => {
  it("is reported: failed with its cause, held and ready again, taken back", async () => {
    const page = await opened();
    // Of two alike pans one failed: the line parts.
    await reportOn(page, "B-12-A");
    await page.getByLabel("Which of them").selectOption({ label: "number 2" });
    await page.getByRole("button", { name: "pinholes" }).click();
    await page.getByRole("button", { name: "Report it failed" }).click();
    await rowOf(page, "B-12-A.2").filter({ hasText: "failed: pinholes" }).waitFor();
    expect((await stored("B-12-A.2")).pan.prepMinutes).toBe(45);
    await rowOf(page, "B-12-A.1").filter({ hasNotText: "pinholes" }).waitFor();

    await reportOn(page, "B-16-A");
    await page.getByLabel("Hold it, because").fill("asks for another colour");
    await page.getByRole("button", { name: "Hold it" }).click();
    await rowOf(page, "B-16-A").filter({ hasText: "on hold: asks for another colour" }).waitFor();
    expect((await stored("B-16-A")).state).toBe("on hold");
    await reportOn(page, "B-16-A");
    await page.getByRole("button", { name: "It is ready now" }).click();
    await page.getByText("B-16-A is ready.").waitFor();
    expect((await stored("B-16-A")).state).toBe("waiting");

    await reportOn(page, "B-16-A");
    await page.getByRole("button", { name: "The customer takes it back" }).click();
    await rowOf(page, "B-16-A").filter({ hasText: "withdrawn" }).waitFor();
    expect((await stored("B-16-A")).state).toBe("withdrawn");
  });

  it("shows only the pans whose next coat is asked for", async () => {
    const page = await opened();
    await page.getByLabel("Next coat").last().selectOption({ label: "Sol-gel single coat, sol-gel" });
    const { pans } = (await shop.service.ask("GET", "/pans")).body;
    const solGel = pans.filter((one: { pan: { coating: string } }) => one.pan.coating === "sol-gel");
    expect(solGel.length).toBeGreaterThan(0);
    await expect.poll(() => page.locator("tbody tr").count()).toBe(solGel.length);
  });
});

it.each([
  [390, "light"],
  [390, "dark"],
  [1280, "light"],
  [1280, "dark"],
] as const)("has no barriers, no small targets and no sideways scrolling, %i px wide, %s", async (width, scheme) => {
  const page = await opened({ width, scheme });
  await page.getByText("Add many").click();
  await page
    .getByRole("button", { name: /^Report / })
    .first()
    .click();
  await page.getByRole("heading", { name: /^What happened to / }).waitFor();
  await suitsEverybody(page);
});
