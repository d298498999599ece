/** Bakes that wait, by hand: three lines of a fixed cycle, one of them with a second coat. */
import { expect, it } from "vitest";
import { dayModel } from "../../../../solver/day/day-model.ts";
import { RecipeBook, SEARCH_BUCKET_K } from "../../../../solver/loads/recipe-book.ts";
import { groupsOf } from "../../../../solver/sequence/dispatch-keys.ts";
import { newLoad } from "../../../../solver/sequence/sequence.ts";
import { FIRST_TASTE } from "../../../../solver/sequence/taste.ts";
import { Timetable } from "../../../../solver/sequence/timetable.ts";
import { Waiting } from "../../../../solver/sequence/waiting.ts";
import { areaLine, fixedCoat, smallRequest } from "../../../help/requests.ts";

const coats = [fixedCoat(), fixedCoat({ sprayMinutes: 5, flashMinutes: 10 })];
const request = smallRequest({
  coatings: [
    { id: "one", name: "one", coats: [fixedCoat()] },
    { id: "two", name: "two", coats },
  ],
  lines: [areaLine("A", { quantity: 2 }), areaLine("B", { readyMinute: 15 }), areaLine("C", { coating: 1 })],
});
const day = dayModel(request);
const groups = groupsOf(day);
const timetable = new Timetable(new RecipeBook(day, 0), SEARCH_BUCKET_K);
const bakesOf = (line: number): number[] =>
  day.bakes.flatMap(({ pan }, bake) => (day.pans[pan]!.line === line ? [bake] : []));

it("tells when the first pan of each group could go in, and for whom a load would wait until a minute", () => {
  const waiting = new Waiting(day, groups);
  const state = timetable.startState();
  expect(waiting.look(state)).toBe(0);
  const at = (line: number, step: number): number =>
    groups.findIndex(({ bakes, step: own }) => own === step && bakesOf(line).includes(bakes[0]!));
  expect([at(0, 0), at(1, 0), at(2, 0), at(2, 1)].map((group) => waiting.ready[group])).toEqual([0, 15, 0, Infinity]);
  const asked: number[] = [];
  waiting.ask(state, at(1, 0), 14, asked);
  expect(asked).toEqual([]);
  waiting.ask(state, at(1, 0), 15, asked);
  waiting.ask(state, at(0, 0), 0, asked);
  expect(asked).toEqual([...bakesOf(1), ...bakesOf(0)]);
  // The first coat of C is done at 40; its second is sprayed and flashes off for 15 minutes more.
  const first = groups[at(2, 0)]!.bakes;
  expect(timetable.place(state, newLoad(0, first), FIRST_TASTE)).toBeDefined();
  expect(waiting.look(state)).toBe(40);
  expect([at(0, 0), at(2, 0), at(2, 1)].map((group) => waiting.opens[group])).toEqual([40, Infinity, 55]);
});

it("forgets bakes that are settled until all begin again, each copy by itself", () => {
  const waiting = new Waiting(day, groups);
  const other = new Waiting(day, groups);
  const state = timetable.startState();
  waiting.settle([...bakesOf(0), ...bakesOf(2)]);
  expect(waiting.look(state)).toBe(15);
  expect(other.look(state)).toBe(0);
  other.copyFrom(waiting);
  expect(other.look(state)).toBe(15);
  other.settle(bakesOf(1));
  expect(other.look(state)).toBe(Infinity);
  expect(waiting.look(state)).toBe(15);
  other.begin();
  expect(other.look(state)).toBe(0);
});
