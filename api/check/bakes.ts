/** The bakes of every piece in order, when each is out of hand again, and when the piece is done. */
import type { DayCoat } from "../contract/day.ts";
import type { DayView, Piece } from "./day-view.ts";
import type { Traces } from "./oven-history.ts";
import { coolingOf } from "./oven-history.ts";
import type { Load, LoadPan, PlanView } from "./plan-view.ts";

export interface Bake {
  readonly load: Load;
  readonly pan: LoadPan;
  readonly coat: DayCoat;
  /** Cool enough to handle and inspected, minutes since the epoch. */
  readonly inspected: number;
  /** How far two integrations may differ in that instant. */
  readonly leewayMinutes: number;
}

export interface PieceBakes {
  readonly piece: Piece;
  /** In order of door opening; without facts of coats that are no longer due. */
  readonly bakes: readonly Bake[];
  /** The first due coat that no load bakes; undefined where the piece is finished. */
  readonly firstMissing: number | undefined;
  readonly missing: number;
}

export function bakesOfPieces(day: DayView, plan: PlanView, traces: Traces): PieceBakes[] {
  const byKey = new Map<string, Bake[]>();
  for (const load of plan.loads.toSorted((a, b) => a.opens - b.opens)) {
    load.pans.forEach((pan, index) => {
      const { line, coat } = pan;
      if (line === undefined || coat === undefined) return;
      if (load.isFact && pan.said.coat < line.pan.nextCoat) return;
      const cooling = coolingOf(day, load, index, traces);
      const inspected = load.done + cooling.minutes + coat.inspectMinutes;
      const bake = { load, pan, coat, inspected, leewayMinutes: cooling.leewayMinutes };
      byKey.set(pan.key, [...(byKey.get(pan.key) ?? []), bake]);
    });
  }
  return day.pieces.map((piece) => {
    const bakes = byKey.get(piece.key) ?? [];
    const baked = new Set(bakes.map(({ pan }) => pan.said.coat));
    const { nextCoat } = piece.line.pan;
    const due = piece.line.coats.map((_, index) => index + 1).filter((coat) => coat >= nextCoat);
    const missing = due.filter((coat) => !baked.has(coat));
    return { piece, bakes, firstMissing: missing[0], missing: missing.length };
  });
}
