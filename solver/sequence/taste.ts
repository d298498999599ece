/** Tastes that searches try. The plainest haste is drawn twice as often. */
import type { Random } from "../random.ts";
import type { Taste } from "./sequence.ts";

const HASTES = [0.5, 1, 1, 1.5, 2.5, 4];
const CREDITS = [0, 0.25, 0.5, 0.75];

/** What a taste is until a search finds a better one. */
export const FIRST_TASTE: Taste = { haste: 1, heatCredit: 0.25 };

/** Each that may be drawn, once. */
export const TASTES: readonly Taste[] = [...new Set(HASTES)].flatMap((haste) =>
  CREDITS.map((heatCredit) => ({ haste, heatCredit })),
);

export function drawTaste(random: Random): Taste {
  return { haste: HASTES[random.below(HASTES.length)]!, heatCredit: CREDITS[random.below(CREDITS.length)]! };
}

/** Equal for equal tastes. */
export function tasteKey({ haste, heatCredit }: Taste): string {
  return `${haste}/${heatCredit}`;
}
