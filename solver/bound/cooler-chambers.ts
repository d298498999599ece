/**
 * Whether a load is looked at from a cooler chamber, too. Where nothing is ruled out a cooler chamber only costs more, but that its
 * pans, baked as long, come out a little cooler and are in the hand sooner. What that may be lies within a bucket of chambers, save
 * where those are narrow.
 */
import type { Grain } from "./grain.ts";
import type { LooseFirings } from "./loose-firing.ts";

export class CoolerChambers {
  readonly #isAsked: boolean;
  #closedMinutes = Infinity;
  /** The door may open by this minute for the first firings. */
  by = Infinity;

  constructor({ coolerToo }: Grain) {
    this.#isAsked = coolerToo;
  }

  /** Whether chambers cooler than the one of these firings are to be looked at, for the same door. */
  mayGain({ firings, refused }: LooseFirings, by: number): boolean {
    if (firings.length === 0 || refused) return true;
    if (!this.#isAsked) return false;
    const least = firings.reduce((minutes, { closedMinutes }) => Math.min(minutes, closedMinutes), Infinity);
    if (least > this.#closedMinutes) return false;
    this.#closedMinutes = least;
    this.by = Math.min(this.by, by);
    return true;
  }
}
