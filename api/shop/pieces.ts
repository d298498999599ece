/**
 * The day piece by piece. Alike pans part company during the day (one fails, one is sprayed, one is still on the
 * bench), so plans of the service know every piece by a name of its own, from the first plan on.
 */
import type { DayFile } from "../contract/day.ts";

export type PanFile = DayFile["pans"][number];

/** Every line with a quantity as that many lines of one: K-201-A becomes K-201-A.1, K-201-A.2, …, of the same ticket. */
export function piecesOf(pans: readonly PanFile[]): PanFile[] {
  const taken = new Set(pans.map(({ id }) => id.trim()));
  return pans.flatMap((pan) => {
    const { quantity = 1, ...rest } = pan;
    if (quantity === 1) return [pan];
    const dots = dotsFor(pan.id, quantity, taken);
    const ticket = pan.ticket ?? pan.id;
    return Array.from({ length: quantity }, (_, i) => ({ ...rest, id: `${pan.id}${dots}${i + 1}`, ticket }));
  });
}

/** One dot, or more where such an id is given away already. */
function dotsFor(id: string, quantity: number, taken: ReadonlySet<string>): string {
  let dots = ".";
  const clash = (): boolean =>
    Array.from({ length: quantity }, (_, i) => `${id}${dots}${i + 1}`).some((name) => taken.has(name));
  while (clash()) dots += ".";
  return dots;
}

/** Per line of the stored day: the names of its pieces in a plan of the service, in order of item. */
export function pieceNames(pans: readonly PanFile[]): ReadonlyMap<string, readonly string[]> {
  const pieces = piecesOf(pans);
  const names = new Map<string, readonly string[]>();
  let next = 0;
  for (const { id, quantity = 1 } of pans) {
    names.set(
      id,
      pieces.slice(next, next + quantity).map((piece) => piece.id),
    );
    next += quantity;
  }
  return names;
}

/** The day with its pans, held loads and places in force named piece by piece. */
export function dayByPiece(day: DayFile): DayFile {
  if (day.pans.every(({ quantity }) => (quantity ?? 1) === 1)) return day;
  const names = pieceNames(day.pans);
  const rename = <P extends { id: string; item?: number | undefined }>(pan: P): P => ({
    ...pan,
    id: names.get(pan.id)?.[(pan.item ?? 1) - 1] ?? pan.id,
    item: 1,
  });
  return {
    ...day,
    pans: piecesOf(day.pans),
    ...(day.held === undefined
      ? {}
      : { held: day.held.map((load) => ({ ...load, pans: (load.pans ?? []).map(rename) })) }),
    ...(day.inForce === undefined ? {} : { inForce: day.inForce.map(rename) }),
    ...(day.inForceLoads === undefined
      ? {}
      : { inForceLoads: day.inForceLoads.map((load) => ({ ...load, pans: load.pans.map(rename) })) }),
  };
}
