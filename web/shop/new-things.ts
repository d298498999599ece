/** What a new oven or coating begins as. */
import type { DayFile } from "../../api/contract/day.ts";
import { words } from "../shell/words-en.ts";

type Oven = DayFile["ovens"][number];

/** For a shop that knows only how long its firings take: nothing is reckoned but minutes, area and gas by the hour. */
export const byHabit: { readonly said: string; readonly thing: Oven } = {
  said: words.shop.byHabit,
  thing: {
    id: "",
    cycle: { kind: "fixed", loadMinutes: 5, unloadMinutes: 5, gasKW: 20 },
    space: { kind: "area", dm2: 50 },
  },
};

/** A copy under another name. Its id is what plans and lists of pans call it. */
export function named<T extends { readonly id: string }>(like: T, name: string): T {
  const said = name.trim();
  return { ...like, id: said.toLowerCase().replaceAll(/\s+/g, "-"), name: said };
}
