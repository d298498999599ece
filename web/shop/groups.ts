/** Mix groups, as coats and rules name them. */
import type { DayFile } from "../../api/contract/day.ts";

/** Every one that is named anywhere in the shop. */
export function groupsOf({ coatings, mixing, ovens }: DayFile): readonly string[] {
  const { neverTogether = [], cleanBurn = null } = mixing ?? {};
  return [
    ...new Set([
      ...coatings.flatMap(({ coats }) => coats.map(({ mixGroup }) => mixGroup)),
      ...neverTogether.flat(),
      ...(cleanBurn?.after ?? []),
      ...(cleanBurn?.before ?? []),
      ...ovens.flatMap(({ lastGroups = [] }) => lastGroups),
    ]),
  ];
}
