/** Members of loads are kept: the same pan on the same shelf is the same object, and a crowd of it too. */
import { describe, expect, it } from "vitest";
import { dayModel } from "../../../../solver/day/day-model.ts";
import { crowdOf, memberAt, memberOn } from "../../../../solver/loads/lone-pan.ts";
import { RecipeBook } from "../../../../solver/loads/recipe-book.ts";
import { generatedDay } from "../../../help/days.ts";
import { requestOf } from "../../../help/exact-bound.ts";

const day = dayModel(requestOf(generatedDay({ pans: 8, ovens: 1, door: "hot", pace: "calm", seed: 2, sprayers: 1 })));
const [one, other] = day.kinds.filter(({ coat }) => coat.window !== null);

describe("a pan alone", () => {
  it("is told by its kind and its shelf", () => {
    const member = memberAt(one!, 4);
    const { metalLowC, soakLeastMinutes, soakMostMinutes } = one!.coat.window!;
    const windows = { lowC: metalLowC, highC: one!.highC, soakLeastMinutes, soakMostMinutes };
    expect(member).toEqual({ count: 1, body: one!.body, offsetC: 4, ...windows });
    expect(memberOn(one!, 4)).toBe(member);
    expect(memberAt(one!, -4).offsetC).toBe(-4);
    expect(memberAt(other!, 4).body).toBe(other!.body);
  });

  it("is one of a crowd that differs by its count only", () => {
    const member = memberAt(one!, 4);
    expect(crowdOf(member, 1)).toBe(member);
    expect(crowdOf(member, 3)).toEqual({ ...member, count: 3 });
    expect(crowdOf(member, 3)).toBe(crowdOf(member, 3));
    expect(crowdOf(member, 2).count).toBe(2);
  });
});

it("loads count alike pans as one member, each pan in one", () => {
  const book = new RecipeBook(day, 0);
  for (const [kind] of day.kinds.entries()) {
    const recipe = book.recipe(0, [kind, kind]);
    if (recipe === undefined) continue;
    const counts = recipe.members.map((_, at) => recipe.memberOf.filter((member) => member === at).length);
    expect(recipe.members.map(({ count }) => count)).toEqual(counts);
    for (const member of recipe.members)
      expect(crowdOf(memberAt(day.kinds[kind]!, member.offsetC), member.count)).toBe(member);
  }
  expect.hasAssertions();
});
