/** What other loads tell of one, and when that is doubted. */
import { expect, it } from "vitest";
import { dayModel } from "../../../../solver/day/day-model.ts";
import { RecipeBook } from "../../../../solver/loads/recipe-book.ts";
import { ToldFits } from "../../../../solver/loads/told-fits.ts";
import { generatedDay } from "../../../help/days.ts";
import { requestOf } from "../../../help/exact-bound.ts";

const day = dayModel(requestOf(generatedDay({ pans: 30, ovens: 1, door: "hot", pace: "calm", seed: 1 })));
const kind = day.kinds.findIndex(({ ovens }) => ovens.length > 0);
const pair = [kind, kind];
const three = [kind, kind, kind];

/** Two of a kind are refused, three are not: one pan more slows the chamber down. */
function toldOf(book = new RecipeBook(day, 0)): { readonly told: ToldFits; readonly laid: string[] } {
  book.doubtsTold = true;
  const laid: string[] = [];
  const told = new ToldFits(book, (_, kinds) => {
    laid.push(kinds.join());
    return kinds.length === 3;
  });
  expect(told.fits(0, pair)).toBe(false);
  return { told, laid };
}

it("takes a load for refused because a part of it was, until it has been asked for over and over", () => {
  const { told, laid } = toldOf();
  let asked = 1;
  while (!told.fits(0, three) && asked < 100) asked++;
  expect(asked).toBeGreaterThan(10);
  expect(asked).toBeLessThan(100);
  expect(laid).toEqual([pair.join(), three.join()]);
  expect(told.fits(0, three)).toBe(true);
});

it("does not lay out again what was laid out and refused", () => {
  const { told, laid } = toldOf();
  for (let asked = 0; asked < 100; asked++) expect(told.fits(0, pair)).toBe(false);
  expect(laid).toEqual([pair.join()]);
});

it("does not doubt what it is told where the book says so, and what it has found stays found", () => {
  const book = new RecipeBook(day, 0);
  const { told } = toldOf(book);
  book.doubtsTold = false;
  for (let asked = 0; asked < 100; asked++) expect(told.fits(0, three)).toBe(false);
  book.doubtsTold = true;
  for (let asked = 0; asked < 100; asked++) told.fits(0, three);
  book.doubtsTold = false;
  expect(told.fits(0, three)).toBe(true);
});
