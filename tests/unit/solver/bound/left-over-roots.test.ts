import { expect, it } from "vitest";
import { exactBound, requestOf } from "../../../help/exact-bound.ts";
import { generatedDay } from "../../../help/days.ts";

/** By hand: two pans of one ticket at 0.20 each, and a ticket of 2 pans ready at `nextOpen`, ten hours late at 0.05 a pan and hour. */
it("counts the lateness of a ticket that is left over once, be it of one pan or of more", () => {
  const day = generatedDay({ seed: 1, pans: 2, ovens: 1, door: "hot", pace: "calm", days: 1 });
  const nextOpen = "2026-05-13T08:00";
  const request = requestOf({
    ...day,
    timeZone: "Europe/Lisbon",
    planFrom: "2026-05-12T08:00",
    staffed: [{ from: "2026-05-12T08:00", to: "2026-05-12T23:00" }],
    nextOpen,
    prices: { gasPerKWh: 1, crewPerHour: 60, latePerPanHour: 0.05, leftOverPerPan: 0.2 },
    pans: [
      {
        ...day.pans[0]!,
        quantity: 2,
        ticket: "T",
        nextCoat: 1,
        sprayed: false,
        priority: "normal",
        readyAt: "2026-05-12T08:00",
        promisedAt: "2026-05-12T22:00",
      },
    ],
  });
  const { bound, ended } = exactBound(request, { upper: 1.5, labels: 500 });
  expect(bound).toBeCloseTo(2 * 0.2 + 10 * 2 * 0.05, 6);
  expect(ended).toBe(true);
});
