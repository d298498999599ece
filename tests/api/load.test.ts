import { describe, expect, it } from "vitest";
import { busyRun } from "../help/busy-run.ts";

describe("a busy shop", () => {
  it(
    "fifty clients read, write and watch while two searches run: no error, reads quick",
    { timeout: 180_000 },
    async () => {
      const { faults, reads, writes, told, readP99Ms, cpuMsPerRequest } = await busyRun({ clients: 50, seconds: 5 });
      expect(faults).toEqual([]);
      expect(reads).toBeGreaterThan(50);
      expect(writes).toBeGreaterThan(2);
      expect(told).toBeGreaterThan(2);
      // Time on the clock is the machine's as much as ours: the tests share it with other tests and two searches. Fifty
      // clients ask less than 200 times a second, so that so little work each leaves reads below 100 ms on an idle machine.
      expect(cpuMsPerRequest).toBeLessThan(25);
      expect(readP99Ms).toBeLessThan(30_000);
    },
  );
});
