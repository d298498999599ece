/** What every test of the page begins with: a browser, a shop whose plan is in force, pages that are closed after the test. */
import type { Browser, Page } from "playwright-core";
import { afterAll, afterEach, beforeAll, expect, inject } from "vitest";
import { openBrowser } from "./browser.ts";
import { closePage, openPage } from "./page.ts";
import type { Opened, Opening } from "./page.ts";
import { copiedShop, morning } from "./planned-shop.ts";
import type { PlannedShop } from "./planned-shop.ts";
import type { TestService } from "./service.ts";

export interface OpeningAt extends Opening {
  /** Another shop's service. */
  readonly at?: TestService;
  /** What the browser may say of requests that the test means to be refused or lost; otherwise it must say nothing. */
  readonly says?: RegExp;
}

export interface AtPage extends PlannedShop {
  readonly browser: Browser;
  /** Opens a screen by its place, as "#/pans", at the time of the service's clock. */
  readonly open: (place: string, opening?: OpeningAt) => Promise<Page>;
}

/** How the browser tells that the service refused something. */
export const refusal = /the server responded with a status of 4\d\d/;

export const anotherShop = (): Promise<PlannedShop> => copiedShop(inject("plannedFile"));

/** To be called at the head of a test file; what it answers can be read within the tests. */
export function atPage(): AtPage {
  let browser: Browser;
  let shop: PlannedShop;
  let opened: (Opened & { readonly says: RegExp | undefined })[] = [];

  beforeAll(async () => {
    [browser, shop] = await Promise.all([openBrowser(), anotherShop()]);
  });
  afterEach(async () => {
    const pages = opened;
    opened = [];
    await Promise.all(pages.map(({ page }) => closePage(page)));
    const complaints = pages.flatMap(({ complaints: all, says }) => all.filter((one) => says?.test(one) !== true));
    expect(complaints, "what the browser's console complains of").toEqual([]);
  });
  afterAll(async () => {
    await browser?.close();
    await shop?.service.stop();
  });

  return {
    get browser() {
      return browser;
    },
    get service() {
      return shop.service;
    },
    get day() {
      return shop.day;
    },
    get id() {
      return shop.id;
    },
    get plan() {
      return shop.plan;
    },
    open: async (place, { at = shop.service, says, ...opening } = {}) => {
      const one = await openPage(browser, `${at.address}/${place}`, { now: morning, ...opening });
      opened.push({ ...one, says });
      return one.page;
    },
  };
}
