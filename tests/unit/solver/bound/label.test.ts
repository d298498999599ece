import { expect, it } from "vitest";
import { keyOf } from "../../../../solver/bound/label.ts";

function key(steps: readonly number[], soiled: readonly number[]): string {
  return keyOf(0, { steps: Uint8Array.from(steps), soiled: Uint8Array.from(soiled) });
}

it("labels are told apart by what is baked and by which ovens owe a clean burn", () => {
  const keys = [
    key([1, 0], [1, 0]),
    key([1, 0], [0, 1]),
    key([1, 0], [0, 0]),
    key([0, 1], [1, 0]),
    key([1, 0], [1, 1]),
  ];
  expect(new Set(keys).size).toBe(keys.length);
  expect(key([1, 0], [1, 0])).toBe(keys[0]);
});
