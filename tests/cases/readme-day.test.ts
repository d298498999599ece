/** The day that the README shows is one that a reader can plan, with a price for all that a plan may save. */
import { readFileSync } from "node:fs";
import { expect, it } from "vitest";
import { unpricedText } from "../../api/contract/words.ts";
import { readDay } from "../../api/day/read-day.ts";

it("the README's day is read as it stands and has prices for gas and lateness", () => {
  const readme = readFileSync(new URL("../../README.md", import.meta.url), "utf8");
  const shown = /```json\n(.*?)```/su.exec(readme)?.[1];
  const read = readDay(JSON.parse(shown ?? ""));
  if (!read.ok) throw new Error(read.problems.map(({ message }) => message).join("; "));
  expect(read.day.pans).not.toHaveLength(0);
  expect(unpricedText(read.day)).toBeNull();
});
