import { describe, expect, it } from "vitest";
import { fuzzRun } from "../help/fuzz-run.ts";

const requests = 500;

describe("whatever is sent", () => {
  it(
    `never fails, never hangs and leaves nothing half-saved (${requests} requests)`,
    { timeout: 240_000 },
    async () => {
      const { faults, slowestMs, byStatus } = await fuzzRun(requests, 20260310);
      expect(faults).toEqual([]);
      // A second on an idle machine; the tests share theirs.
      expect(slowestMs).toBeLessThan(5000);
      // Not everything is refused at the door: some of it gets in, some is turned down by the rules of the trade.
      expect(Object.keys(byStatus)).toEqual(expect.arrayContaining(["200", "201", "202", "400", "404", "409", "422"]));
    },
  );
});
