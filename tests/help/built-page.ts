/** The page as it is served: built anew only where its sources have changed since. */
import { createHash } from "node:crypto";
import { existsSync, readFileSync, readdirSync, statSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { build } from "vite";

const web = fileURLToPath(new URL("../../web/", import.meta.url));
const contract = fileURLToPath(new URL("../../api/contract/", import.meta.url));
const kept = `${web}dist/stamp.txt`;

export async function buildPage(): Promise<void> {
  const stamp = stampOf([web, contract]);
  if (existsSync(kept) && readFileSync(kept, "utf8") === stamp) return;
  await build({ root: web, configFile: `${web}vite.config.ts`, logLevel: "error" });
  writeFileSync(kept, stamp);
}

/** Of everything the page is made from, the contract's words and units included. */
function stampOf(folders: readonly string[]): string {
  const hash = createHash("sha256");
  for (const folder of folders) {
    const files = readdirSync(folder, { recursive: true, encoding: "utf8" }).filter((file) => !file.startsWith("dist"));
    for (const file of files.toSorted())
      if (statSync(join(folder, file)).isFile()) hash.update(file).update(readFileSync(join(folder, file)));
  }
  return hash.digest("hex");
}
