/** `serve`: the service with its page. Runs until it is stopped; the process then ends with the service's exit code. */
import { existsSync } from "node:fs";
import { fileURLToPath } from "node:url";

const pageRoot = fileURLToPath(new URL("../../web/", import.meta.url));

export async function runServe(): Promise<number> {
  if (!existsSync(`${pageRoot}dist/index.html`)) {
    const { build } = await import("vite");
    await build({ root: pageRoot, logLevel: "warn" });
  }
  await import("../main.ts");
  return new Promise(() => undefined);
}
