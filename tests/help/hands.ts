/** A person at the page, by mouse or by keyboard alone. */
import type { Locator, Page } from "playwright-core";

export interface Hands {
  readonly press: (what: Locator) => Promise<void>;
  readonly write: (field: Locator, text: string) => Promise<void>;
  readonly tick: (box: Locator) => Promise<void>;
}

export function mouse(): Hands {
  return {
    press: (what) => what.click(),
    write: (field, text) => field.fill(text),
    tick: (box) => box.check(),
  };
}

/** Tab reaches it, Enter or Space presses it; throws where the keyboard does not get there. */
export function keyboard(page: Page): Hands {
  const reach = async (what: Locator): Promise<void> => {
    await what.waitFor();
    while (!(await what.isEnabled())) await page.waitForTimeout(50);
    for (let i = 0; i < mostTabs; i++) {
      if ((await what.and(page.locator(":focus")).count()) === 1) return;
      await page.keyboard.press("Tab");
    }
    throw new Error(`The keyboard does not reach ${String(what)}`);
  };
  return {
    press: async (what) => {
      await reach(what);
      await page.keyboard.press("Enter");
    },
    write: async (field, text) => {
      await reach(field);
      await page.keyboard.press("Control+A");
      await page.keyboard.type(text);
    },
    tick: async (box) => {
      await reach(box);
      if (!(await box.isChecked())) await page.keyboard.press("Space");
    },
  };
}

const mostTabs = 150;
