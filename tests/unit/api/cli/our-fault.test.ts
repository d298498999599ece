import { mkdtemp, readFile, readdir, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterEach, beforeEach, expect, it, vi } from "vitest";
import { typedPath } from "../../../../api/cli/files.ts";
import { ourFault } from "../../../../api/cli/our-fault.ts";
import { PlanFault } from "../../../../api/planning/plan-fault.ts";
import { handDay, handPlan } from "./hand-plan.ts";

let folder: string;
beforeEach(async () => {
  folder = await mkdtemp(join(tmpdir(), "ovenful-our-fault-"));
  vi.stubEnv("npm_lifecycle_event", "ovenful");
  vi.stubEnv("INIT_CWD", folder);
});
afterEach(async () => {
  vi.unstubAllEnvs();
  await rm(folder, { recursive: true, force: true });
});

it("a path means what it means where it was typed, not where npm runs", () => {
  expect(typedPath("day.json")).toBe(join(folder, "day.json"));
  expect(typedPath("/tmp/day.json")).toBe("/tmp/day.json");
  vi.stubEnv("npm_lifecycle_event", "test");
  expect(typedPath("day.json")).toBe(join(process.cwd(), "day.json"));
});

it("a plan that the checker faults is saved with its day, named, and ends with 1", async () => {
  let said = "";
  const fault = { rule: "2 space", path: "loads[0].pans[1]", message: "Two pans overlap." } as const;
  const code = await ourFault(new PlanFault(handDay, handPlan, [fault]), (text) => (said += text));
  expect(code).toBe(1);
  expect(said).toContain("mistake of Ovenful");
  expect(said).toContain("rule 2 space, loads[0].pans[1]: Two pans overlap.");
  expect(said).toContain("Please report it");
  const [name = ""] = await readdir(folder);
  expect(said).toContain(join(folder, name));
  expect(JSON.parse(await readFile(join(folder, name, "day.json"), "utf8"))).toEqual(handDay);
  expect(JSON.parse(await readFile(join(folder, name, "plan.json"), "utf8"))).toEqual(handPlan);
});

it("any other mistake is saved with the day and where it happened", async () => {
  let said = "";
  expect(await ourFault(new RangeError("no such shelf"), (text) => (said += text), handDay)).toBe(1);
  const [name = ""] = await readdir(folder);
  expect((await readdir(join(folder, name))).toSorted()).toEqual(["day.json", "error.txt"]);
  expect(await readFile(join(folder, name, "error.txt"), "utf8")).toContain("no such shelf");
  expect(said).toContain("no such shelf");
});
