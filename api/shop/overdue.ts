/** Pans that come back to the bench after their promise: the promise given stays as it was, and the day file says why. */
import type { ShopTime } from "./instants.ts";
import type { PanFile } from "./pieces.ts";

export function overdueMarked(pan: PanFile, time: ShopTime): PanFile {
  const { promisedAt = null } = pan;
  return promisedAt !== null && time.millis(promisedAt) < time.millis(pan.readyAt) ? { ...pan, overdue: true } : pan;
}
