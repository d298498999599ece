/** The built page in a real browser: opened at a width and in a scheme, with everything the console complains of. */
import { createHash } from "node:crypto";
import { mkdirSync, readFileSync, readdirSync, rmSync, statSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import type { Browser, Page } from "playwright-core";
import { build } from "vite";

const web = fileURLToPath(new URL("../../web/", import.meta.url));
const axe = readFileSync(fileURLToPath(import.meta.resolve("axe-core/axe.min.js")), "utf8");

/** Builds the page once for all test files that run at the same time; again only when its sources have changed. */
export async function buildPage(): Promise<void> {
  const lock = join(tmpdir(), `ovenful-page-${createHash("sha256").update(web).digest("hex").slice(0, 12)}`);
  await locked(lock, async () => {
    const stamp = stampOf(web);
    if (kept(`${web}dist/stamp.txt`) === stamp) return;
    await build({ root: web, configFile: `${web}vite.config.ts`, logLevel: "error" });
    writeFileSync(`${web}dist/stamp.txt`, stamp);
  });
}

const abandonedMs = 60_000;

async function locked(folder: string, work: () => Promise<void>): Promise<void> {
  while (!taken(folder)) await new Promise((resolve) => setTimeout(resolve, 100));
  try {
    await work();
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

/** A run that was killed leaves its lock behind: after a minute it counts no more. */
function taken(folder: string): boolean {
  try {
    mkdirSync(folder);
    return true;
  } catch {
    const since = statSync(folder, { throwIfNoEntry: false })?.mtimeMs ?? Date.now();
    if (Date.now() - since > abandonedMs) rmSync(folder, { recursive: true, force: true });
    return false;
  }
}

/** Of everything the page is made from, the contract's words and units included. */
function stampOf(folder: string): string {
  const hash = createHash("sha256");
  for (const root of [folder, fileURLToPath(new URL("../../api/contract/", import.meta.url))]) {
    const files = readdirSync(root, { recursive: true, encoding: "utf8" }).filter((file) => !file.startsWith("dist"));
    for (const file of files.toSorted())
      if (statSync(join(root, file)).isFile()) hash.update(file).update(readFileSync(join(root, file)));
  }
  return hash.digest("hex");
}

function kept(file: string): string {
  return statSync(file, { throwIfNoEntry: false }) === undefined ? "" : readFileSync(file, "utf8");
}

export interface Opened {
  readonly page: Page;
  /** Errors and warnings of the console, and uncaught errors. */
  readonly complaints: string[];
}

export interface Opening {
  readonly width?: number;
  readonly scheme?: "light" | "dark";
  /** What the page's clock shows. */
  readonly now?: string;
  /** The browser's language; the default counts hours to 24. */
  readonly locale?: string;
}

export async function openPage(browser: Browser, address: string, opening: Opening = {}): Promise<Opened> {
  const { width = 1280, scheme = "light", now, locale = "en-GB" } = opening;
  const page = await browser.newPage({
    reducedMotion: "reduce",
    viewport: { width, height: 900 },
    colorScheme: scheme,
    locale,
  });
  const complaints: string[] = [];
  page.on("console", (message) => {
    if (message.type() === "error" || message.type() === "warning") complaints.push(message.text());
  });
  page.on("pageerror", (error) => complaints.push(String(error)));
  await page.addInitScript(shiftWatch);
  if (now !== undefined) await page.clock.setFixedTime(now);
  await page.goto(address);
  await page.waitForSelector("h1");
  return { page, complaints };
}

const shiftWatch = `window.moved = [];
  new PerformanceObserver((list) => {
    for (const one of list.getEntries())
      if (!one.hadRecentInput)
        window.moved.push({ by: one.value, what: one.sources.map(({ node }) => node?.className ?? node?.nodeName).join(", ") });
  }).observe({ type: "layout-shift", buffered: true });`;

/** Every piece that moved by itself since the page was opened, with its share of the cumulative layout shift (CLS). */
export async function shifts(page: Page): Promise<readonly { readonly by: number; readonly what: string }[]> {
  return page.evaluate("window.moved");
}

/** What the accessibility checker finds, as "rule: element". */
export async function barriers(page: Page): Promise<string[]> {
  // As an expression: the page's content policy keeps added scripts out.
  await page.evaluate(`${axe};0`);
  return page.evaluate(
    "axe.run({runOnly:['wcag2a','wcag2aa','wcag21a','wcag21aa','wcag22aa']}).then(({violations}) => violations.flatMap((one) => one.nodes.map((node) => one.id + ': ' + node.html.slice(0, 160))))",
  );
}

/**
 * Things to press that a glove misses: lower or narrower than 48 px, as "36 x 20 Save". Links inside a sentence are exempt,
 * and loads in the drawing of the day, whose width is their time: the table below links to the same sheets.
 */
export async function smallTargets(page: Page): Promise<string[]> {
  return page.evaluate(`[...document.querySelectorAll("button, a[href], input:not([type=checkbox], [type=radio]), select, summary, label:has(input[type=checkbox], input[type=radio])")]
    .filter((one) => one.offsetParent !== null && !one.closest("p.fine, li, td p, svg") && !one.matches(".skip, p > a:not(.button)"))
    .map((one) => [one.getBoundingClientRect(), one])
    .filter(([box]) => box.width > 0 && (box.height < 47.5 || box.width < 47.5))
    .map(([box, one]) => Math.round(box.width) + " x " + Math.round(box.height) + " " + (one.innerText || one.name || one.id))`);
}

/** How far the page is wider than its window, px; a page that does not scroll sideways gives 0 or less. */
export async function sideways(page: Page): Promise<number> {
  return page.evaluate("document.documentElement.scrollWidth - innerWidth");
}

/** Keeps a picture where SHOTS names a folder. */
export async function shoot(page: Page, name: string): Promise<void> {
  const folder = process.env["SHOTS"];
  if (folder) await page.screenshot({ path: join(folder, `${name}.png`), fullPage: true });
}

/** Presses Tab until the element is focused; throws where the keyboard does not get there. */
export async function tabTo(page: Page, selector: string, most = 120): Promise<void> {
  for (let i = 0; i < most; i++) {
    if (await page.evaluate(`document.activeElement?.matches(${JSON.stringify(selector)}) ?? false`)) return;
    await page.keyboard.press("Tab");
  }
  throw new Error(`The keyboard does not reach ${selector}`);
}
