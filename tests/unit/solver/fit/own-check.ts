/** Overlap check of layouts with arithmetic of its own: outlines as intervals and discs, nothing from the packer. */
import type { Footprint } from "../../../../solver/fit/footprint.ts";
import type { LoadedPan } from "../../../../solver/fit/load-count.ts";

export interface Lying {
  readonly footprint: Footprint;
  readonly xCm: number;
  readonly yCm: number;
  readonly turned: boolean;
}

interface Box {
  readonly left: number;
  readonly right: number;
  readonly front: number;
  readonly back: number;
}

function boxOf(lying: Lying): Box {
  const { footprint, xCm, yCm, turned } = lying;
  const along = footprint.kind === "disc" ? footprint.diameterCm : turned ? footprint.depthCm : footprint.widthCm;
  const across = footprint.kind === "disc" ? footprint.diameterCm : turned ? footprint.widthCm : footprint.depthCm;
  return { left: xCm - along / 2, right: xCm + along / 2, front: yCm - across / 2, back: yCm + across / 2 };
}

/** Clear distance between two outlines, cm; negative where discs overlap, 0 or less where boxes do. */
export function clearCm(first: Lying, second: Lying): number {
  if (first.footprint.kind === "disc" && second.footprint.kind === "disc") {
    const apart = Math.sqrt((first.xCm - second.xCm) ** 2 + (first.yCm - second.yCm) ** 2);
    return apart - (first.footprint.diameterCm + second.footprint.diameterCm) / 2;
  }
  if (first.footprint.kind === "disc") {
    const box = boxOf(second);
    const nearX = Math.min(Math.max(first.xCm, box.left), box.right);
    const nearY = Math.min(Math.max(first.yCm, box.front), box.back);
    return Math.sqrt((first.xCm - nearX) ** 2 + (first.yCm - nearY) ** 2) - first.footprint.diameterCm / 2;
  }
  if (second.footprint.kind === "disc") return clearCm(second, first);
  return boxesClear(boxOf(first), boxOf(second));
}

function boxesClear(one: Box, two: Box): number {
  const besides = Math.max(two.left - one.right, one.left - two.right);
  const behind = Math.max(two.front - one.back, one.front - two.back);
  if (besides > 0 && behind > 0) return Math.sqrt(besides * besides + behind * behind);
  return Math.max(besides, behind);
}

/** Largest amount by which the layout misses the gap to an edge or between two pans, cm. */
export function worstMissCm(widthCm: number, depthCm: number, gapCm: number, layout: readonly Lying[]): number {
  let worst = 0;
  layout.forEach((lying, i) => {
    const box = boxOf(lying);
    const edge = Math.min(box.left, widthCm - box.right, box.front, depthCm - box.back);
    worst = Math.max(worst, gapCm - edge);
    for (const other of layout.slice(0, i)) worst = Math.max(worst, gapCm - clearCm(lying, other));
  });
  return worst;
}

export function disc(diameterCm: number): Footprint {
  return { kind: "disc", diameterCm };
}

export function rectangle(widthCm: number, depthCm: number): Footprint {
  return { kind: "rectangle", widthCm, depthCm };
}

export function times<T>(count: number, thing: T): T[] {
  return Array.from({ length: count }, () => thing);
}

/** Load index of each pan, −1 for one in no load. */
export function loadsOf(loaded: readonly (LoadedPan | undefined)[]): number[] {
  return loaded.map((pan) => pan?.load ?? -1);
}
