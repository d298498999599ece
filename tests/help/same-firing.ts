/** Two accounts of one firing, compared: the product's and the reference integration's. */
import { expect } from "vitest";
import type { Firing } from "../../solver/heat/firing.ts";
import type { ReferenceFiring } from "./reference-oven.ts";

/** Ten times closer than the physics asks of any two integrators (0.5 °C, 0.25 min, 0.5 %), and better. */
export const tolerance = { metalK: 0.05, peakK: 0.2, soakMinutes: 0.02, gasShare: 0.0005, gasKWh: 1e-4 };

export function expectSameFiring(firing: Firing, reference: ReferenceFiring): void {
  const near = (one: number, other: number, within: number): void =>
    expect(Math.abs(one - other)).toBeLessThanOrEqual(within);
  near(firing.gasKWh, reference.gasKWh, tolerance.gasKWh + tolerance.gasShare * reference.gasKWh);
  near(firing.chamberAtUnloadC, reference.chamberAtUnloadC, tolerance.metalK);
  near(firing.chamberAtDoneC, reference.chamberAtDoneC, tolerance.metalK);
  expect(firing.reachedSetPoint).toBe(reference.startsAbove || reference.setPointAtMinutes !== null);
  expect(firing.setPointAtMinutes === null).toBe(reference.setPointAtMinutes === null || reference.startsAbove);
  if (firing.setPointAtMinutes !== null) near(firing.setPointAtMinutes, reference.setPointAtMinutes!, 0.005);
  firing.members.forEach((bake, index) => {
    const other = reference.members[index]!;
    near(bake.metalAtUnloadC, other.metalAtUnloadC, tolerance.metalK);
    near(bake.peakC, other.peakC, tolerance.peakK);
    near(bake.soakMinutes, other.soakMinutes, tolerance.soakMinutes);
    near(bake.aboveLowMinutes, other.aboveLowMinutes, tolerance.soakMinutes);
    expect(bake.inWindowMinutes === null).toBe(other.inWindowMinutes === null);
    if (bake.inWindowMinutes !== null) near(bake.inWindowMinutes, other.inWindowMinutes!, tolerance.soakMinutes);
  });
}
