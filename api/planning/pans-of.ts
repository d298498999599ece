import type { PlanRequest } from "../../solver/index.ts";

/** Pieces that a request is about, baked or not. */
export function pansOf({ lines }: PlanRequest): number {
  return lines.reduce((sum, { quantity }) => sum + quantity, 0);
}
