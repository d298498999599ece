/** The whole job of a day, cold: five pans by hand, plan, what is next, a rush, a load fired and logged, the day closed. */
import type { Page } from "playwright-core";
import { expect, it } from "vitest";
import type { PlanLoad } from "../../api/contract/plan.ts";
import { atPage } from "../help/at-page.ts";
import { sideways } from "../help/page.ts";
import { morning } from "../help/planned-shop.ts";
import { keyboard, mouse } from "../help/hands.ts";
import type { Hands } from "../help/hands.ts";
import { shopDay, testService } from "../help/service.ts";
import type { TestService } from "../help/service.ts";

const patienceMs = 180_000;
const shop = atPage();

interface Job {
  readonly page: Page;
  readonly hands: Hands;
  readonly service: TestService;
}

const button = (page: Page, name: string) => page.getByRole("button", { name, exact: true });
const go = ({ page, hands }: Job, screen: string): Promise<void> =>
  hands.press(page.getByRole("navigation").getByRole("link", { name: screen, exact: true }));

async function addFivePans(job: Job): Promise<void> {
  const { page, hands } = job;
  await go(job, "Waiting pans");
  await hands.press(button(page, "Add a pan"));
  await hands.write(page.getByLabel("Ticket", { exact: true }), "N-1");
  await hands.press(button(page, "24 cm"));
  for (const letter of ["A", "B", "C", "D", "E"]) {
    await hands.tick(page.getByLabel("No closed hollow part, or it is vented"));
    await hands.press(button(page, "Add the pan"));
    await page.getByText(`N-1-${letter} added.`).waitFor();
  }
  const { pans } = (await job.service.ask("GET", "/pans")).body;
  expect(pans).toHaveLength(5);
}

async function plan(job: Job): Promise<void> {
  const { page, hands } = job;
  await hands.press(button(page, "Plan the day"));
  await hands.press(button(page, "Use this plan"));
  await page.getByText("This plan is proposed").waitFor({ state: "detached" });
}

async function firstLoad({ service }: Job): Promise<PlanLoad> {
  const { loads } = (await service.ask("GET", "/loads")).body;
  return loads.find(({ state }: { state: string }) => state === "planned").load;
}

async function readNext(job: Job): Promise<void> {
  const load = await firstLoad(job);
  const next = job.page.locator(".half.next").first();
  const parts = [load.id, `${load.setPointC} °C`, load.doorOpensAt.slice(11, 16), load.unloadAt.slice(11, 16)];
  for (const part of parts) await expect.poll(() => next.innerText()).toContain(part);
}

async function takeRush(job: Job): Promise<void> {
  const { page, hands } = job;
  await go(job, "Rush");
  await hands.write(page.getByLabel("Ticket", { exact: true }), "R-1");
  await hands.press(button(page, "When can it be ready?"));
  await hands.press(button(page, "Accept the job"));
  const taken = page.getByText(/^Taken\. The plan promises ticket R-1 for/);
  const better = button(page, "Accept it as it is now");
  await taken.or(better).first().waitFor();
  if (await better.isVisible()) await hands.press(better);
  await taken.waitFor();
}

async function fireAndLog(job: Job): Promise<void> {
  const { page, hands, service } = job;
  await go(job, "The day");
  const load = await firstLoad(job);
  await hands.press(page.locator(".half.next .loadline a").first());
  await page.locator(".targets").waitFor();
  const moments = [
    ["Opened", load.doorOpensAt],
    ["Closed", load.doorClosesAt],
    ["Burner off", load.burnerOffAt ?? load.unloadAt],
    ["Out", load.unloadAt],
  ] as const;
  for (const [name, at] of moments) {
    service.setNow(at);
    if (name === "Closed") for (const box of await page.locator(".gates input").all()) await hands.tick(box);
    await hands.press(button(page, name));
    await page.getByText(new RegExp(`^${name} \\d`)).waitFor();
  }
  const { loads } = (await service.ask("GET", "/loads")).body;
  expect(loads.find(({ id }: { id: string }) => id === load.id).state).toBe("fired");
}

async function closeDay(job: Job): Promise<void> {
  const { page, hands, service } = job;
  await go(job, "Close of day");
  await hands.press(page.locator(".closing button").first());
  await page.getByText("Close the day now?").waitFor();
  await hands.press(page.locator(".closing button").first());
  await page.getByRole("status").filter({ hasText: "Closed:" }).waitFor();
  expect((await service.ask("GET", "/days")).body.days).toHaveLength(1);
}

it.each([
  ["mouse", 1280],
  ["mouse", 390],
  ["keyboard", 1280],
  ["keyboard", 390],
] as const)("is done by %s, %i px wide", { timeout: patienceMs }, async (by, width) => {
  const service = await testService({ now: morning });
  const empty = { ...shopDay("small-morning"), pans: [] };
  expect((await service.ask("PUT", "/day", { body: empty })).status).toBe(200);
  // A better plan may come between the answer to a rush and its acceptance, which is refused then.
  const page = await shop.open("", { at: service, width, says: /status of 409/ });
  const job = { page, service, hands: by === "mouse" ? mouse() : keyboard(page) };
  await addFivePans(job);
  await plan(job);
  await readNext(job);
  await takeRush(job);
  await fireAndLog(job);
  await closeDay(job);
  expect(await sideways(page)).toBeLessThanOrEqual(0);
  // Before its service, or it would complain that it cannot ask any more.
  await page.close();
  await service.stop();
});
