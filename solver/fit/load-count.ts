/** Fewest loads for a set of pans when only their number matters: the search's warm start. */
import type { ShelfSpace } from "../shop.ts";
import type { PackPan, Place } from "./footprint.ts";
import { addToLayout } from "./load-fit.ts";

/** Load index (from 0) of each pan; −1 for a pan that fits no shelf of its list even alone. */
export function packIntoLoads(
  space: ShelfSpace,
  pans: readonly PackPan[],
  preference: readonly (readonly number[])[],
  effort: number,
  seed: number,
): number[] {
  const loads: { pans: PackPan[]; places: Place[] }[] = [];
  return pans.map((pan, i) => {
    for (let at = 0; at <= loads.length; at++) {
      const load = loads[at] ?? { pans: [], places: [] };
      const place = addToLayout(space, load.pans, load.places, pan, preference[i]!);
      if (!place) continue;
      if (at === loads.length) loads.push(load);
      load.pans.push(pan);
      load.places.push(place);
      return at;
    }
    return -1;
  });
}
