/** A layout in numbers tells every pan's place as it was given. */
import { expect, it } from "vitest";
import { Layout } from "../../../../solver/fit/layout.ts";

const places = [
  { shelf: 2, xCm: 14.25, yCm: 30, turned: true },
  { shelf: 0, xCm: 1 / 3, yCm: 0, turned: false },
  { shelf: 11, xCm: 7, yCm: 61.5, turned: false },
];

it("tells each place as it was given", () => {
  const layout = new Layout(places);
  expect(layout.pans).toBe(3);
  expect(places.map((_, index) => layout.place(index))).toEqual(places);
});

it("knows no place of a pan that it does not hold", () => {
  expect(() => new Layout(places).place(3)).toThrow(RangeError);
  expect(() => new Layout(places).place(-1)).toThrow(RangeError);
  expect(() => new Layout([]).place(0)).toThrow(RangeError);
});
