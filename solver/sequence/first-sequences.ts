/** Stage 3 of plan.ts: sound sequences at once, the careful hand's first. */
import { carefulHand, PLAIN_TASTE } from "./careful-hand.ts";
import type { Sequence } from "./sequence.ts";
import type { Timetable } from "./timetable.ts";

export function firstSequences(timetable: Timetable): readonly Sequence[] {
  const plain = carefulHand(timetable);
  const preheating = plain.map((load) => ({ ...load, preheat: "auto" as const }));
  return [
    { ...PLAIN_TASTE, loads: plain },
    { haste: 1, heatCredit: 0.25, loads: preheating },
  ];
}
