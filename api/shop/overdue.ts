/** Pans that come back to the bench after their promise: the promise given stays as it was, and the day file says why. */
import type { ShopTime } from "./instants.ts";
import type { PanFile } from "./pieces.ts";

export function overdueMarked(pan: PanFile, time: ShopTime): PanFile {
  const { promisedAt = null } = pan;
  return promisedAt !== null && time.millis(promisedAt) < time.millis(pan.readyAt) ? { ...pan, overdue: true } : pan;
}

/** Rows as text. Whoever edits an overdue pan need not say again that it is: only "not overdue" takes that back. */
export function stillOverdue(before: string, written: string): string {
  const was = JSON.parse(before) as Partial<PanFile>;
  const becomes = JSON.parse(written) as Partial<PanFile>;
  return was.overdue === true && becomes.overdue === undefined
    ? JSON.stringify({ ...becomes, overdue: true })
    : written;
}
