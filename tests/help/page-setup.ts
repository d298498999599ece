/** Once a run, before every test of the page: builds the page, and plans a day of which each test file gets a copy. */
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import type { TestProject } from "vitest/node";
import { buildPage } from "./built-page.ts";
import { plannedShop } from "./planned-shop.ts";

declare module "vitest" {
  interface ProvidedContext {
    /** The file of a shop whose plan is in force. */
    plannedFile: string;
  }
}

export default async function setUp(project: TestProject): Promise<() => void> {
  const folder = mkdtempSync(join(tmpdir(), "ovenful-planned-"));
  const plannedFile = join(folder, "planned.db");
  const [{ service }] = await Promise.all([plannedShop(), buildPage()]);
  service.service.store.raw.prepare("vacuum into ?").run(plannedFile);
  await service.stop();
  project.provide("plannedFile", plannedFile);
  return () => rmSync(folder, { recursive: true, force: true });
}
