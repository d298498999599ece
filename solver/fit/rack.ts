/** Shelves to be filled, of one load or of several, and the pans to go on them: what the load searches work on. */
import type { Centre } from "./greedy.ts";
import type { FloorSize, Outline } from "./outline.ts";

/** One shelf with what lies on it: indices of pans and their centres in the same order. */
export interface Tray {
  readonly floor: FloorSize;
  readonly maxKg: number;
  members: readonly number[];
  centres: readonly Centre[];
}

/** Pans as the searches see them. */
export interface Freight {
  readonly outlines: readonly Outline[];
  /** Area of the footprint with the gap around it, cm². */
  readonly area: readonly number[];
  readonly massKg: readonly number[];
  /** Trays each pan may lie on, best first. */
  readonly allowed: readonly (readonly number[])[];
}

export interface Rack {
  readonly freight: Freight;
  readonly trays: readonly Tray[];
  /** Pans that lie nowhere yet. */
  pool: readonly number[];
}

export function massOf(freight: Freight, members: readonly number[]): number {
  let mass = 0;
  for (const i of members) mass += freight.massKg[i]!;
  return mass;
}

/** Copy of what lies where, to come back to. */
export function layoutOf(rack: Rack): Rack {
  return { freight: rack.freight, trays: rack.trays.map((tray) => ({ ...tray })), pool: rack.pool };
}
