/** The command line as a shop starts it: real processes, real files. */
import { spawn } from "node:child_process";
import { mkdtemp, readFile, readdir, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { planSchema } from "../../api/contract/plan.ts";
import type { PlanFile } from "../../api/contract/plan.ts";

const root = join(import.meta.dirname, "../..");
const shop = (name: string): string => join(root, "fixtures/shops", `${name}.json`);
const small = shop("small-morning");

let folder: string;
beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), "ovenful-cli-"));
});
afterAll(async () => rm(folder, { recursive: true, force: true }));

interface Ended {
  readonly code: number | null;
  readonly out: string;
  readonly err: string;
}

interface Start {
  readonly input?: string | Uint8Array;
  /** Called with everything said on stderr so far, whenever more is said. */
  readonly heard?: (err: string, kill: (signal: NodeJS.Signals) => void) => void;
  readonly closeStdout?: boolean;
}

function ovenful(args: readonly string[], { input, heard, closeStdout }: Start = {}): Promise<Ended> {
  return new Promise((resolve, reject) => {
    const child = spawn(process.execPath, ["--import", "tsx", join(root, "api/cli.ts"), ...args], { cwd: root });
    let out = "";
    let err = "";
    child.stdout.setEncoding("utf8").on("data", (text: string) => (out += text));
    child.stderr.setEncoding("utf8").on("data", (text: string) => {
      err += text;
      heard?.(err, (signal) => child.kill(signal));
    });
    child.on("error", reject);
    child.on("close", (code) => resolve({ code, out, err }));
    if (closeStdout === true) child.stdout.destroy();
    child.stdin.end(input ?? "");
  });
}

async function write(name: string, content: unknown): Promise<string> {
  const path = join(folder, name);
  await writeFile(path, typeof content === "string" ? content : JSON.stringify(content));
  return path;
}

type Json = Record<string, unknown>;

async function smallDay(): Promise<Json & { pans: (Json & { massKg: number })[] }> {
  return JSON.parse(await readFile(small, "utf8"));
}

const planOf = (text: string): PlanFile => planSchema.parse(JSON.parse(text));

interface Event {
  readonly event: string;
  readonly seconds: number;
  readonly cost: number;
  readonly bound: number;
}

const eventsOf = (err: string): Event[] =>
  err
    .trim()
    .split("\n")
    .map((line) => JSON.parse(line));

const limit = 60_000;

describe("plan", { timeout: limit }, () => {
  it("prints a plan to read, and writes the same plan to a file that verify finds sound", async () => {
    const file = join(folder, "plan.json");
    const planned = await ovenful(["plan", small, "--steps", "200", "--out", file]);
    expect(planned).toMatchObject({ code: 0, err: "" });
    expect(planned.out).toMatch(/^NEXT$/m);
    expect(planned.out).toContain("Small morning");
    expect(planned.out).not.toContain("\u001b");
    const plan = planOf(await readFile(file, "utf8"));
    for (const load of plan.loads) expect(planned.out).toContain(`  ${load.id}  `);
    const verified = await ovenful(["verify", small, file]);
    expect(verified).toMatchObject({ code: 0, err: "" });
    expect(verified.out).toContain("sound");
    expect((await readdir(folder)).filter((name) => name.endsWith(".part"))).toEqual([]);
  });

  it("gives the plan file on stdout and each better plan as a line of JSON on stderr", async () => {
    const { code, out, err } = await ovenful(["plan", small, "--json", "--steps", "200"]);
    expect(code).toBe(0);
    const plan = planOf(out);
    const events = eventsOf(err);
    expect(events.every(({ event }) => event === "plan")).toBe(true);
    const costs = events.map(({ cost }) => cost);
    expect(costs).toEqual(costs.toSorted((a, b) => b - a));
    expect(events.at(-1)?.cost).toBeCloseTo(plan.cost.total, 2);
    for (const { seconds, cost, bound } of events) {
      expect(seconds).toBeGreaterThan(0);
      expect(bound).toBeLessThanOrEqual(cost + 1e-3);
    }
  });

  it("gives the same plan for the same day, seed and steps", async () => {
    const twice = await Promise.all(
      [1, 2].map(() => ovenful(["plan", small, "--json", "--steps", "150", "--seed", "5"])),
    );
    const [one, other] = twice.map(({ out }) => {
      const { madeAt, search, ...rest } = planOf(out);
      return { ...rest, steps: search.steps, seed: search.seed, made: madeAt.length };
    });
    expect(one).toEqual(other);
    expect(one?.seed).toBe(5);
  });

  it("reads the day from stdin", async () => {
    const { code, out } = await ovenful(["plan", "-", "--json", "--steps", "0"], { input: await readFile(small) });
    expect(code).toBe(0);
    expect(planOf(out).dayTitle).toContain("Small morning");
  });

  it("refuses a bad day with every problem, and writes nothing", async () => {
    const day = await smallDay();
    const bad = {
      ...day,
      pans: day.pans.map((pan, i) =>
        i === 0 ? { ...pan, massKg: 420 } : i === 1 ? { ...pan, coating: "two-cot" } : pan,
      ),
    };
    const path = await write("bad.json", bad);
    const file = join(folder, "never.json");
    const refused = await ovenful(["plan", path, "--out", file]);
    expect(refused).toMatchObject({ code: 2, out: "" });
    expect(refused.err).toContain("pans[0].massKg: ");
    expect(refused.err).toContain("seen: 420; allowed: ");
    expect(refused.err).toContain("0.42 kg");
    expect(refused.err).toContain("pans[1].coating: ");
    expect(refused.err).toContain("Did you mean two-coat?");
    expect(await readdir(folder)).not.toContain("never.json");
  });

  it("tells problems as JSON where JSON was asked for", async () => {
    const path = await write("comma.json", '{"formatVersion": 1,}');
    const { code, out, err } = await ovenful(["plan", path, "--json"]);
    expect({ code, out }).toEqual({ code: 2, out: "" });
    expect(JSON.parse(err.trim())).toMatchObject({ event: "problem", code: "not-json" });
  });

  it.each([
    ["a file that is not there", ["plan", "/no/such/day.json"], /cannot be read: there is no such file/],
    ["an output folder that is not there", ["plan", small, "--out", "/no/such/folder/plan.json"], /there is no folder/],
    ["the day file as output", ["plan", small, "--out", small], /the day file itself/],
    ["a wrong option", ["plan", small, "--sed", "3"], /Did you mean --seed\?/],
    ["a wrong number", ["plan", small, "--seconds", "-1e"], /--seconds/],
    ["a wrong subcommand", ["paln", small], /Did you mean plan\?/],
    ["no subcommand", [], /Usage/],
  ])("ends with 2 for %s", async (_, args, said) => {
    const before = await readFile(small, "utf8");
    const { code, out, err } = await ovenful(args);
    expect({ code, out }).toEqual({ code: 2, out: "" });
    expect(err).toMatch(said);
    expect(await readFile(small, "utf8")).toBe(before);
  });

  it("tells warnings on stderr and still plans", async () => {
    const day = await smallDay();
    const path = await write("odd.json", { ...day, mixing: { neverTogether: [["fluoropolymer", "gold leaf"]] } });
    const { code, out, err } = await ovenful(["plan", path, "--json", "--steps", "0"]);
    expect(code).toBe(0);
    expect(planOf(out).loads.length).toBeGreaterThan(0);
    expect(err).toContain('"event":"warning"');
    expect(err).toContain("gold leaf");
  });

  it("ends with 3 where not one pan can be baked, and says why", async () => {
    const day = await smallDay();
    const short = { ...day, staffed: [{ from: "2026-06-09T08:00", to: "2026-06-09T08:10" }] };
    const { code, out } = await ovenful(["plan", await write("short.json", short), "--steps", "0"]);
    expect(code).toBe(3);
    expect(out).toMatch(/^LEFT OVER$/m);
    expect(out).toContain("12 pans left over");
  });

  it("has nothing to do on a day without pans", async () => {
    const { code, out } = await ovenful([
      "plan",
      await write("none.json", { ...(await smallDay()), pans: [] }),
      "--steps",
      "0",
    ]);
    expect(code).toBe(0);
    expect(out).toContain("0 pans");
  });

  it.each(["SIGINT", "SIGTERM"] as const)("ends at %s with the best plan so far", async (signal) => {
    let sent = 0;
    const began = performance.now();
    const { code, out } = await ovenful(["plan", shop("full-day"), "--json", "--seconds", "300"], {
      heard: (err, kill) => {
        if (sent === 0 && err.includes('"event":"plan"')) kill(signal);
        sent += 1;
      },
    });
    expect(code).toBe(0);
    expect(planOf(out).search.status).toBe("stopped");
    expect(planOf(out).loads.length).toBeGreaterThan(0);
    expect(performance.now() - began).toBeLessThan(50_000);
  });

  it("takes a Ctrl-C that npm passes on a second time for one", async () => {
    let pressed = false;
    const { code, out } = await ovenful(["plan", shop("full-day"), "--json", "--seconds", "300"], {
      heard: (err, kill) => {
        if (pressed || !err.includes('"event":"plan"')) return;
        pressed = true;
        kill("SIGINT");
        setTimeout(() => kill("SIGINT"), 20);
      },
    });
    expect({ code, status: planOf(out).search.status }).toEqual({ code: 0, status: "stopped" });
  });

  it("does not mind a reader who has seen enough", async () => {
    const file = join(folder, "unread.json");
    const { code, err } = await ovenful(["plan", small, "--steps", "0", "--out", file], { closeStdout: true });
    expect({ code, err }).toEqual({ code: 0, err: "" });
    expect(planOf(await readFile(file, "utf8")).loads.length).toBeGreaterThan(0);
  });
});

describe("verify", { timeout: limit }, () => {
  it("names what a broken plan breaks and ends with 1", async () => {
    const { out: text } = await ovenful(["plan", small, "--json", "--steps", "0"]);
    const plan = planOf(text);
    const hot = plan.loads.map((load, i) => (i === 0 ? { ...load, gasKWh: load.gasKWh + 5 } : load));
    const path = await write("broken.json", { ...plan, loads: hot });
    const { code, out } = await ovenful(["verify", small, path]);
    expect(code).toBe(1);
    expect(out).toContain("not sound");
    expect(out).toMatch(/loads\[0\]\.gasKWh/);
    const json = await ovenful(["verify", small, path, "--json"]);
    expect(json.code).toBe(1);
    expect(JSON.parse(json.out).faults.map(({ path: where }: { path: string }) => where)).toContain("loads[0].gasKWh");
  });

  it("ends with 2 for a file that is no plan, and says where it is none", async () => {
    const { code, out, err } = await ovenful(["verify", small, small]);
    expect({ code, out }).toEqual({ code: 2, out: "" });
    expect(err).toContain("is no plan file");
    expect(err).toContain("dayTitle: ");
  });

  it("refuses to read both files from stdin", async () => {
    expect((await ovenful(["verify", "-", "-"])).code).toBe(2);
  });
});

describe("explain", { timeout: limit }, () => {
  it("says yes with a set-point and minutes", async () => {
    const { code, out } = await ovenful(["explain", small, "B-11-A", "B-12-A"]);
    expect(code).toBe(0);
    expect(out).toMatch(/^Yes: B-11-A \(primer\) and B-12-A \(primer\) may share a firing in Gas box oven/);
    expect(out).toMatch(/set-point \d+ °C/);
  });

  it("says no with the reason", async () => {
    const { code, out } = await ovenful(["explain", small, "B-14-A", "B-16-A"]);
    expect(code).toBe(0);
    expect(out).toMatch(/^No: /);
    expect(out).toContain("never share a firing");
  });

  it("gives both as JSON with ids", async () => {
    const yes = await ovenful(["explain", small, "B-11-A", "B-11-A", "--json"]);
    expect(JSON.parse(yes.out)).toMatchObject({ shares: true, oven: "box" });
    const no = await ovenful(["explain", small, "B-14-A", "B-16-A", "--json"]);
    expect(JSON.parse(no.out)).toMatchObject({ shares: false, reasons: [{ oven: "box", code: "never-together" }] });
  });

  it.each([
    [["B-11-A", "B-12-C"], /no pan B-12-C\. Did you mean/],
    [["B-16-A", "B-16-A"], /a single piece/],
  ])("ends with 2 for %j", async (ids, said) => {
    const { code, err } = await ovenful(["explain", small, ...ids]);
    expect(code).toBe(2);
    expect(err).toMatch(said);
  });
});

describe("demo, help and version", { timeout: limit }, () => {
  it("writes days that plan reads, and never over a file that was changed", async () => {
    const target = join(folder, "demo");
    const first = await ovenful(["demo", target]);
    expect(first.code).toBe(0);
    const names = await readdir(target);
    expect(names).toEqual([
      "fixed-cycle.json",
      "full-day.json",
      "rush-and-failure.json",
      "small-morning.json",
      "two-ovens-two-days.json",
    ]);
    expect((await ovenful(["demo", target])).code).toBe(0);
    await writeFile(join(target, "full-day.json"), "{}");
    const again = await ovenful(["demo", target]);
    expect(again.code).toBe(2);
    expect(again.err).toContain("full-day.json");
    expect(await readFile(join(target, "full-day.json"), "utf8")).toBe("{}");
  });

  it("tells the usage of each subcommand, and the version of package.json", async () => {
    const [help, planHelp, version] = await Promise.all(
      [["--help"], ["plan", "--help"], ["--version"]].map((args) => ovenful(args)),
    );
    expect([help?.code, planHelp?.code, version?.code]).toEqual([0, 0, 0]);
    for (const word of ["plan", "verify", "explain", "demo"]) expect(help?.out).toContain(`  ${word} `);
    expect(planHelp?.out).toContain("--seconds 10");
    const manifest: unknown = JSON.parse(await readFile(join(root, "package.json"), "utf8"));
    expect(manifest).toMatchObject({ version: version?.out.trim() });
  });
});
