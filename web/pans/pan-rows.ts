/** The pans of the list with what the plan in force says of each. */
import type { DayFile } from "../../api/contract/day.ts";
import type { PanFile } from "../parts/day-lookup.ts";
import { isToCome, isUnderWay } from "../parts/load-now.ts";
import type { LoadNow } from "../parts/load-now.ts";
import type { ListedPan } from "../shell/service.ts";

export interface PanRow extends ListedPan {
  /** The load it stands in now; null: none. */
  readonly inside: LoadNow | null;
  /** The next load it goes into; null: none is planned. */
  readonly next: LoadNow | null;
  /** Its number in the coating, from 1. By the plan in force where that has baked some of it. */
  readonly nextCoat: number;
}

export function panRows(pans: readonly ListedPan[], loads: readonly LoadNow[], now: number): PanRow[] {
  return pans.map((listed) => {
    const own = loads.filter(({ load }) => load.pans.some(({ id }) => isOf(listed.pan, id)));
    const waits = listed.state === "waiting";
    const inside = waits ? (own.find((one) => isUnderWay(one, now)) ?? null) : null;
    const next = waits ? (own.find((one) => isToCome(one, now)) ?? null) : null;
    const place = (inside ?? next)?.load.pans.find(({ id }) => isOf(listed.pan, id));
    return { ...listed, inside, next, nextCoat: place?.coat ?? listed.pan.nextCoat ?? 1 };
  });
}

/** Plans call the second of several alike pans K-1.2. */
function isOf({ id, quantity = 1 }: PanFile, planned: string): boolean {
  return planned === id || (quantity > 1 && planned.startsWith(`${id}.`));
}

/** "coating/coat" of the next coat, to filter by. */
export function coatKey({ pan, nextCoat }: PanRow): string {
  return `${pan.coating}/${nextCoat}`;
}

export function coatSaid(day: DayFile, coating: string, nextCoat: number): string {
  const found = day.coatings.find(({ id }) => id === coating);
  return `${found?.name ?? coating}, ${found?.coats[nextCoat - 1]?.name ?? String(nextCoat)}`;
}
