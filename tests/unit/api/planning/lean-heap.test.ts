/** What the heap of a process grows to that keeps a third of a million objects and always makes new ones. */
import { execFile } from "node:child_process";
import { promisify } from "node:util";
import { expect, it } from "vitest";

const module = new URL("../../../../api/planning/lean-heap.ts", import.meta.url);

/** MB, for the wishes said one after another. */
async function peakMb(...pans: number[]): Promise<number> {
  const script = `
    const { fitHeapTo } = await import(${JSON.stringify(module)});
    for (const pans of ${JSON.stringify(pans)}) fitHeapTo(pans);
    const ring = new Array(300_000);
    let peak = 0;
    for (let at = 0; at < 6_000_000; at++) {
      ring[at % ring.length] = { at, list: [at, at + 1, at + 2] };
      if (at % 50_000 === 0) peak = Math.max(peak, process.memoryUsage().heapTotal);
    }
    console.log(peak / 1e6);`;
  const { stdout, stderr } = await promisify(execFile)(process.execPath, [
    "--import",
    "tsx",
    "--input-type=module",
    "--eval",
    script,
  ]);
  expect(stderr).toBe("");
  return Number(stdout);
}

it("is cleared sooner on large days, and as the engine pleases on others, also after a large one", async () => {
  const [own, lean, again] = await Promise.all([peakMb(100), peakMb(101), peakMb(101, 100)]);
  expect(lean).toBeGreaterThan(20);
  expect(lean).toBeLessThan(0.8 * own);
  expect(again).toBeGreaterThan(1.2 * lean);
}, 60_000);
