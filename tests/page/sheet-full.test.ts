/** A sheet with two dozen pans in other units is still one page; what a report means for the pans is told at once. */
import { expect, it } from "vitest";
import type { DayFile } from "../../api/contract/day.ts";
import { atPage } from "../help/at-page.ts";
import { shoot } from "../help/page.ts";
import { shopDay } from "../help/service.ts";

const shop = atPage();
const many = 24;

/** Small pans, primed already, that one firing of the big oven holds. */
function fullLoad(): DayFile {
  const day = shopDay("full-day");
  const [pan] = day.pans;
  const [oven] = day.ovens;
  if (pan === undefined || oven === undefined) throw new Error("the day has no pan or no oven");
  const pans = Array.from({ length: many }, (_, i) => ({
    ...pan,
    id: `T-${401 + i}-A`,
    ticket: `T-${401 + i}`,
    quantity: 1,
    coating: "two-coat",
    nextCoat: 2,
    sprayed: true,
    shape: { kind: "disc" as const, diameterCm: i % 2 === 0 ? 20 : 18 },
    heightCm: 4.5,
    massKg: 0.4,
  }));
  return { ...day, pans, held: [], ovens: [{ ...oven, maxSolventMl: 400 }] };
}

it("prints two dozen pans in °F and inches on one page, everything there", async () => {
  const { service } = shop;
  service.setNow("2026-09-15T05:00:00Z");
  expect((await service.ask("PUT", "/day", { body: fullLoad() })).status).toBe(200);
  const { id } = (await service.ask("POST", "/plans", { body: { seconds: 60, steps: 30 } })).body;
  const { plan } = await service.finished(id);
  expect((await service.ask("POST", `/plans/${id}/accept`, { body: {} })).status).toBe(200);
  const load = plan?.loads.find(({ pans }) => pans.length === many);
  if (load?.setPointC == null) throw new Error("no load of the plan holds them all");

  const page = await shop.open(`#/load/${load.id}`, { now: "2026-09-15T05:05:00Z" });
  await page.getByLabel("Temperature").selectOption("°F");
  await page.getByLabel("Length").selectOption("in");
  await page.getByLabel("Mass").selectOption("lb");
  await page.emulateMedia({ media: "print" });
  await shoot(page, "print-two-dozen");
  const pdf = (await page.pdf({ preferCSSPageSize: true })).toString("latin1");
  expect(pdf.match(/\/Type\s*\/Page\b(?!s)/g)).toHaveLength(1);

  const text = await page.locator(".sheet").innerText();
  // °F = °C × 9/5 + 32; 80 cm are 31.5 in, an inch being 2.54 cm (international inch, 1959).
  for (const part of [
    `${Math.round((load.setPointC * 9) / 5 + 32)} °F`,
    "31.5 × 31.5 in",
    " lb",
    "tape off",
    "Cautions",
  ])
    expect(text).toContain(part);
  expect(text).not.toMatch(/\d °C|\d cm|\d kg/);
  for (const { id: pan } of load.pans) expect(text).toContain(pan);
  expect(await page.locator(".pans-of-load tbody tr").count()).toBe(many);
  expect(await page.locator("section", { hasText: "Checks with the infrared" }).locator("tbody tr").count()).toBe(2);
});

it("takes out and burner off in the same minute, and says what the pans got", async () => {
  const { service } = shop;
  const { loads } = (await service.ask("GET", "/loads")).body;
  const { id, load } = loads[0];
  const early = Date.parse(load.setPointAt) + 60_000;
  for (const [kind, at] of [
    ["load-opened", load.doorOpensAt],
    ["load-closed", load.doorClosesAt],
  ]) {
    service.setNow(at);
    expect((await service.ask("POST", "/events", { body: { kind, load: id } })).status).toBe(201);
  }
  service.setNow(new Date(early).toISOString());
  const page = await shop.open(`#/load/${id}`, { now: new Date(early).toISOString() });
  await page.getByRole("button", { name: "Burner off", exact: true }).click();
  await page.getByText(/^Burner off \d/).waitFor();
  await page.getByRole("button", { name: "Out", exact: true }).click();
  await page.getByText(/^Out \d/).waitFor();
  await page
    .getByRole("alert")
    .filter({ hasText: /inspect it|too little/ })
    .waitFor();
  const after = (await service.ask("GET", "/loads")).body.loads.find((one: { id: string }) => one.id === id);
  expect(after.state).toBe("fired");
});
