/** A browser for the page's tests: `CHROMIUM=/path` first, the package's own second; neither is a failure, never a skip. */
import { chromium } from "playwright-core";
import type { Browser } from "playwright-core";

export async function openBrowser(): Promise<Browser> {
  const executablePath = process.env["CHROMIUM"] ?? (await packagedBrowser());
  // The package's own arguments hold --single-process, in which a second page crashes.
  const args = ["--no-sandbox", "--disable-gpu", "--disable-background-networking"];
  return chromium.launch({ executablePath, args, headless: true });
}

async function packagedBrowser(): Promise<string> {
  if (process.platform !== "linux" || process.arch !== "x64")
    throw new Error("The packaged browser runs on Linux x64 only: set CHROMIUM to the path of a Chromium.");
  // The package unpacks the libraries it needs only where it believes to run in its cloud.
  process.env["AWS_EXECUTION_ENV"] ??= "AWS_Lambda_nodejs20.x";
  const { default: packaged } = await import("@sparticuz/chromium");
  return packaged.executablePath();
}
