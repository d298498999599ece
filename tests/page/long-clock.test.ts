/** The drawing of the day with 60 loads and 400 bars: drawn whole, and quickly enough to scroll smoothly while the clock ticks. */
import { expect, it } from "vitest";
import type { PlanFile } from "../../api/contract/plan.ts";
import { atPage } from "../help/at-page.ts";
import { closePage } from "../help/page.ts";
import { morning } from "../help/planned-shop.ts";

const many = { loads: 60, bars: 400 };
const shop = atPage();

/** The same some days later. */
function later<T>(one: T, days: number): T {
  const moved = JSON.stringify(one).replaceAll(/"(\d{4}-\d\d-\d\d)(T[^"]+)"/g, (_, date: string, time: string) => {
    const day = new Date(Date.parse(`${date}T00:00:00Z`) + days * 86_400_000).toISOString().slice(0, 10);
    return `"${day}${time}"`;
  });
  return JSON.parse(moved) as T;
}

function repeated<T>(some: readonly T[], upTo: number): T[] {
  const days = Array.from({ length: Math.ceil(upTo / some.length) }, (_, day) => some.map((one) => later(one, day)));
  return days.flat().slice(0, upTo);
}

/** The plan as it was made, day after day, until it has as many loads and bars as asked for. */
function lengthened(plan: PlanFile): PlanFile {
  const half = many.bars / 2;
  return {
    ...plan,
    loads: repeated(plan.loads, many.loads).map((load, i) => ({ ...load, id: `L${i + 1}` })),
    booth: repeated(plan.booth, half),
    prep: repeated(plan.prep, half),
  };
}

it("is drawn whole, and a second of scrolling and ticking keeps the page's thread free", async () => {
  const context = await shop.browser.newContext({ viewport: { width: 1280, height: 900 }, serviceWorkers: "block" });
  const page = await context.newPage();
  await page.clock.install({ time: morning });
  await page.route(`**/plans/${shop.id}`, async (route) => {
    const answer = await (await route.fetch()).json();
    await route.fulfill({ json: { ...answer, inForce: false, plan: lengthened(answer.plan) } });
  });
  await page.goto(shop.service.address);
  await expect.poll(() => page.locator(".dayclock a.load").count()).toBe(many.loads);
  await expect.poll(() => page.locator(".dayclock .task").count()).toBe(many.bars);
  const devTools = await context.newCDPSession(page);
  // The thread's own time: how long others keep the machine busy does not count.
  await devTools.send("Performance.enable", { timeDomain: "threadTicks" });
  const busy = async (): Promise<number> => {
    const { metrics } = await devTools.send("Performance.getMetrics");
    return metrics.find(({ name }) => name === "TaskDuration")?.value ?? Number.NaN;
  };
  const before = await busy();
  const steps = 60;
  for (let i = 1; i <= steps; i++) {
    await page.evaluate(`document.querySelector(".dayclock").scrollLeft = ${i * 60}`);
    await page.clock.runFor(1000 / 60);
    await page.evaluate(
      "new Promise((done) => { const port = new MessageChannel(); port.port1.onmessage = done; port.port2.postMessage(0); })",
    );
  }
  // Sixty frames of a second's scrolling with one tick of the clock: 16.7 ms each.
  expect((await busy()) - before).toBeLessThan(1);
  await closePage(page);
  await context.close();
});
