/** Cheap proofs that footprints cannot all lie on one shelf. */
import type { Footprint } from "./footprint.ts";
import { canTurn, fitsAlone, floorOf, isDisc, outlineArea, outlineOf, turnedOutline } from "./outline.ts";
import type { FloorSize, Outline } from "./outline.ts";

/** True where the footprints are proven not to fit; false says nothing. */
export function cannotFitShelf(
  widthCm: number,
  depthCm: number,
  gapCm: number,
  footprints: readonly Footprint[],
): boolean {
  const floor = floorOf(widthCm, depthCm, gapCm);
  return outlinesCannotFit(
    floor,
    footprints.map((footprint) => outlineOf(footprint, gapCm)),
  );
}

/** The same for outlines on a floor. */
export function outlinesCannotFit(floor: FloorSize, outlines: readonly Outline[]): boolean {
  if (!outlines.every((outline) => fitsFloor(floor, outline))) return true;
  return areaTooLarge(floor, outlines) || tooManyOfASize(floor, outlines) || somePairCannot(floor, outlines);
}

/** Whether the outline fits the empty floor, turned or not. */
export function fitsFloor(floor: FloorSize, outline: Outline): boolean {
  return fitsAlone(floor, outline) || (canTurn(outline) && fitsAlone(floor, turnedOutline(outline)));
}

/** Free floor that no pan can cover: outlines rounded by at least `round` leave the four corners empty. */
export function usableArea(floor: FloorSize, leastRound: number): number {
  const size = Math.max(0, floor.width + floor.slack) * Math.max(0, floor.depth + floor.slack);
  return size - (4 - Math.PI) * leastRound * leastRound;
}

function areaTooLarge(floor: FloorSize, outlines: readonly Outline[]): boolean {
  let area = 0;
  let leastRound = Infinity;
  for (const outline of outlines) {
    area += outlineArea(outline);
    leastRound = Math.min(leastRound, outline.round);
  }
  if (outlines.length === 0) return false;
  return area > usableArea(floor, leastRound) * (1 + 1e-9);
}

/**
 * Most points at least `apart` from each other in a rectangle of the given sides: 2/√3·area/apart² + half the
 * perimeter/apart + 1 (N. Oler, An inequality in the geometry of numbers, Acta Math. 105, 1961).
 */
function mostPoints(width: number, depth: number, apart: number): number {
  return (2 / Math.sqrt(3)) * ((width * depth) / (apart * apart)) + (width + depth) / apart + 1;
}

/** Upper bound on how many pans that each hold a disc of this radius the floor takes. */
export function mostOfSize(floor: FloorSize, radius: number): number {
  if (radius <= 0) return Infinity;
  const width = floor.width + floor.slack - 2 * radius;
  const depth = floor.depth + floor.slack - 2 * radius;
  if (width < -floor.slack || depth < -floor.slack) return 0;
  return Math.floor(mostPoints(Math.max(0, width), Math.max(0, depth), 2 * radius) + 1e-6);
}

/** Counts, for each size, the pans that hold a disc of that size; each such disc's centre needs its distance. */
function tooManyOfASize(floor: FloorSize, outlines: readonly Outline[]): boolean {
  const inner = outlines.map((outline) => Math.min(outline.coreX, outline.coreY) + outline.round);
  inner.sort((a, b) => b - a);
  for (let i = 1; i < inner.length; i++) {
    if (inner[i + 1] === inner[i]) continue;
    if (i + 1 > mostOfSize(floor, inner[i]!)) return true;
  }
  return false;
}

function somePairCannot(floor: FloorSize, outlines: readonly Outline[]): boolean {
  for (let i = 0; i < outlines.length; i++) {
    for (let j = 0; j < i; j++) if (pairCannot(floor, outlines[i]!, outlines[j]!)) return true;
  }
  return false;
}

/** Two outlines fit together exactly where they keep their distance when pushed into opposite corners. */
export function pairCannot(floor: FloorSize, first: Outline, second: Outline): boolean {
  for (const one of canTurn(first) ? [first, turnedOutline(first)] : [first]) {
    if (!fitsAlone(floor, one)) continue;
    for (const two of canTurn(second) ? [second, turnedOutline(second)] : [second]) {
      if (fitsAlone(floor, two) && fitInCorners(floor, one, two)) return false;
    }
  }
  return true;
}

function fitInCorners(floor: FloorSize, first: Outline, second: Outline): boolean {
  const round = first.round + second.round;
  const apartX = floor.width + floor.slack - round - 2 * (first.coreX + second.coreX);
  const apartY = floor.depth + floor.slack - round - 2 * (first.coreY + second.coreY);
  if (isDisc(first) && isDisc(second)) return Math.hypot(apartX, apartY) >= round - floor.slack;
  if (apartX >= round - floor.slack || apartY >= round - floor.slack) return true;
  return Math.hypot(Math.max(0, apartX), Math.max(0, apartY)) >= round - floor.slack && round > 0;
}
