/** A process that plans fits its heap to the pans of the day; see lean-heap.test.ts for what that does. */
import { expect, it, vi } from "vitest";
import { fitHeapTo } from "../../../../api/planning/lean-heap.ts";
import { generatedDay } from "../../../help/days.ts";
import { planned } from "../../../help/planned.ts";

vi.mock("../../../../api/planning/lean-heap.ts", () => ({ fitHeapTo: vi.fn() }));

it.each([4, 7])("is told once that there are %i pans", async (pans) => {
  vi.mocked(fitHeapTo).mockClear();
  const day = generatedDay({ pans, ovens: 1, door: "hot", pace: "calm", seed: 3, sprayers: 1 });
  await planned(day, 1);
  expect(vi.mocked(fitHeapTo).mock.calls).toEqual([[pans]]);
});
