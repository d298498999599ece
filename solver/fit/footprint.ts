/** What a pan takes up on a shelf, and where it stands: the words of every packing stage. */

/** Outline seen from above, cm. A fixed handle is part of the rectangle, which may be turned by 90°. */
export type Footprint =
  | { readonly kind: "disc"; readonly diameterCm: number }
  | { readonly kind: "rectangle"; readonly widthCm: number; readonly depthCm: number };

/** A pan as packing sees it. */
export interface PackPan {
  readonly footprint: Footprint;
  readonly heightCm: number;
  readonly massKg: number;
}

/** Where a pan stands: shelf index, centre from the shelf's left front corner in cm, rectangle turned by 90° or not. */
export interface Place {
  readonly shelf: number;
  readonly xCm: number;
  readonly yCm: number;
  readonly turned: boolean;
}

/** A place on a given shelf. */
export interface Spot {
  readonly xCm: number;
  readonly yCm: number;
  readonly turned: boolean;
}
