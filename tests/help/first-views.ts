/** Opens the first view again and again in a browser that has kept nothing: how soon it stands, and answers a press. */
import type { Browser } from "playwright-core";
import { openBrowser } from "./browser.ts";
import { buildPage } from "./built-page.ts";
import { morning, plannedShop } from "./planned-shop.ts";

export interface FirstViews {
  readonly openings: number;
  /** From the address being entered until every oven's card and the next step are there and a pressed link was followed. */
  readonly p50Ms: number;
  readonly worstMs: number;
  readonly faults: readonly string[];
}

const promisedMs = 1000;

/** In the page, by its own clock: presses the first link of the loads' table as soon as it stands, and waits for its sheet. */
const pressed = `new Promise((resolve, reject) => {
  const patience = setTimeout(() => reject(new Error("The first view does not stand.")), 20000);
  const soon = (found) => setTimeout(found, 4);
  const follow = () => {
    if (document.querySelector(".shelves") === null) return soon(follow);
    clearTimeout(patience);
    resolve(performance.now());
  };
  const look = () => {
    const link = document.querySelector("table a[href^='#/load']");
    if (document.querySelector(".oven-card") === null || link === null) return soon(look);
    link.click();
    follow();
  };
  look();
})`;

/** Without the tests' set clock, which would stand still. */
async function oneView(browser: Browser, address: string): Promise<number> {
  // A page of its own context: neither cache nor service worker.
  const page = await browser.newPage({ viewport: { width: 1280, height: 900 } });
  try {
    await page.goto(address, { waitUntil: "commit" });
    return await page.evaluate<number>(pressed);
  } finally {
    await page.close();
  }
}

export async function firstViews(openings: number): Promise<FirstViews> {
  const [browser, shop] = await Promise.all([openBrowser(), plannedShop(morning), buildPage()]);
  try {
    const took: number[] = [];
    for (let i = 0; i < openings; i++) took.push(await oneView(browser, `${shop.service.address}/`));
    took.sort((a, b) => a - b);
    const worstMs = Math.round(took.at(-1) ?? 0);
    const slow = took.filter((ms) => ms >= promisedMs).length;
    const faults = slow === 0 ? [] : [`${slow} of ${openings} views took ${promisedMs} ms or more`];
    return { openings, p50Ms: Math.round(took[took.length >> 1] ?? 0), worstMs, faults };
  } finally {
    await browser.close();
    await shop.service.stop();
  }
}
