/**
 * Footprints as rounded rectangles, so that one distance rule serves every pair.
 *
 * A disc is a point rounded by its radius, a rectangle has no rounding; half the gap is added to the rounding and taken
 * off the shelf's edges. Two pans keep the gap exactly where the cores' Euclidean distance is at least the sum of their
 * roundings, and a pan keeps the gap to the edges exactly where its rounded outline lies inside the shrunk floor.
 */
import type { Footprint } from "./footprint.ts";

/** Half sizes of the core and the rounding around it, cm. */
export interface Outline {
  readonly coreX: number;
  readonly coreY: number;
  readonly round: number;
}

/** The shelf less half a gap at every edge; its origin lies half a gap inside the shelf's left front corner. */
export interface FloorSize {
  readonly width: number;
  readonly depth: number;
  /** Slack of every comparison, cm: lets exact fits through in spite of rounding in sums of sizes. */
  readonly slack: number;
}

export function floorOf(widthCm: number, depthCm: number, gapCm: number): FloorSize {
  return { width: widthCm - gapCm, depth: depthCm - gapCm, slack: 2e-9 * Math.max(1, widthCm, depthCm) };
}

/** Outlines of one size are one object, so that they can be told by it. */
const outlines = new Map<string, Outline>();
const madeLast = new WeakMap<Footprint, { readonly gapCm: number; readonly outline: Outline }>();

/** Outline with half the gap around it, as it lies unturned. */
export function outlineOf(footprint: Footprint, gapCm: number): Outline {
  const last = madeLast.get(footprint);
  if (last?.gapCm === gapCm) return last.outline;
  const made = rounded(footprint, gapCm / 2);
  const key = `${made.coreX}/${made.coreY}/${made.round}`;
  const outline = outlines.get(key) ?? made;
  outlines.set(key, outline);
  madeLast.set(footprint, { gapCm, outline });
  return outline;
}

function rounded(footprint: Footprint, round: number): Outline {
  if (footprint.kind === "disc") return { coreX: 0, coreY: 0, round: footprint.diameterCm / 2 + round };
  return { coreX: footprint.widthCm / 2, coreY: footprint.depthCm / 2, round };
}

/** The outline turned by 90°. */
export function turnedOutline(outline: Outline): Outline {
  return { coreX: outline.coreY, coreY: outline.coreX, round: outline.round };
}

export function isDisc(outline: Outline): boolean {
  return outline.coreX === 0 && outline.coreY === 0;
}

/** Whether turning by 90° changes anything. */
export function canTurn(outline: Outline): boolean {
  return outline.coreX !== outline.coreY;
}

/** Area of the rounded outline, cm². */
export function outlineArea(outline: Outline): number {
  const { coreX, coreY, round } = outline;
  return 4 * coreX * coreY + 4 * (coreX + coreY) * round + Math.PI * round * round;
}

/** Area of the box around the outline, cm². */
export function boxArea(outline: Outline): number {
  return 4 * (outline.coreX + outline.round) * (outline.coreY + outline.round);
}

/** Whether it fits the empty floor as it lies. */
export function fitsAlone(floor: FloorSize, outline: Outline): boolean {
  return (
    2 * (outline.coreX + outline.round) <= floor.width + floor.slack &&
    2 * (outline.coreY + outline.round) <= floor.depth + floor.slack
  );
}

/** By how much two outlines with centres (dx, dy) apart miss the required distance, cm; ≤ 0 where they keep it. */
export function overlapOf(first: Outline, second: Outline, dx: number, dy: number): number {
  const apartX = Math.max(0, Math.abs(dx) - first.coreX - second.coreX);
  const apartY = Math.max(0, Math.abs(dy) - first.coreY - second.coreY);
  return first.round + second.round - Math.hypot(apartX, apartY);
}
