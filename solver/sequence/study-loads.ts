/** Loads that come from elsewhere are looked at closely at once: whoever tells of them may have asked for them more often. */
import type { PlannedLoad } from "./sequence.ts";
import type { Timetable } from "./timetable.ts";

/** `mostEffort`: see RecipeBook.study. */
export function studyLoads({ book, day }: Timetable, loads: readonly PlannedLoad[], mostEffort = Infinity): void {
  for (const { oven, bakes } of loads) {
    const kinds = bakes.map((bake) => day.bakes[bake]!.kind);
    book.study(
      oven,
      kinds.sort((a, b) => a - b),
      mostEffort,
    );
  }
}
