/** What may be used now: ovens and shelves in use, a sprayer at the booth or none; and which pans that leaves out. */
import type { DayFile } from "../contract/day.ts";
import type { ShopRows } from "./day-rows.ts";
import { MINUTE } from "./instants.ts";
import type { ShopTime } from "./instants.ts";
import type { PanFile } from "./pieces.ts";

type OvenFile = DayFile["ovens"][number];
type CoatingFile = DayFile["coatings"][number];

export interface OvenNote {
  readonly shelvesOut: readonly string[];
  readonly why: string;
  /** When an oven out of use is expected back; null: nobody knows. */
  readonly until: string | null;
}

export interface OnHold {
  readonly pan: string;
  readonly why: string;
}

/** Note of the booth's setting while nobody is there to spray. */
export const NO_SPRAYER = "no sprayer";

export function ovenNote(note: string): OvenNote {
  const none: OvenNote = { shelvesOut: [], why: "", until: null };
  return note === "" ? none : { ...none, ...(JSON.parse(note) as Partial<OvenNote>) };
}

/** A shelf out of use stays, because a load in the oven may stand on it, but lets nothing in any more. */
export const OUT_OF_USE_CM = 0.01;

/**
 * Ovens in use with the shelves in use, and those expected back after `asOf`, shut until then; an oven whose last shelf
 * is out is out itself. One that nobody reported back when it should have been is not believed to be.
 */
export function ovensInUse(rows: Pick<ShopRows, "ovens">, asOf: number, time: ShopTime): OvenFile[] {
  return rows.ovens.flatMap((row) => {
    const { shelvesOut, until } = ovenNote(row.note);
    const isBackLater = until !== null && time.millis(until) > asOf;
    if (row.state !== "in use" && !isBackLater) return [];
    const whole = JSON.parse(row.body) as OvenFile;
    const oven = row.state === "in use" ? whole : { ...whole, outUntil: laterOf(until ?? "", whole.outUntil, time) };
    if (oven.space.kind === "area" || shelvesOut.length === 0) return [oven];
    if (oven.space.shelves.every(({ id }) => shelvesOut.includes(id))) return [];
    const shelves = oven.space.shelves.map((shelf) =>
      shelvesOut.includes(shelf.id) ? { ...shelf, clearHeightCm: OUT_OF_USE_CM } : shelf,
    );
    return [{ ...oven, space: { ...oven.space, shelves } }];
  });
}

/** On a whole minute, as a day file wants it. */
function laterOf(until: string, written: string | null | undefined, time: ShopTime): string {
  const other = written === undefined || written === null ? -Infinity : time.millis(written);
  return time.write(Math.ceil(Math.max(time.millis(until), other) / MINUTE) * MINUTE);
}

export function hasSprayer(rows: Pick<ShopRows, "settings">): boolean {
  return rows.settings.find(({ id }) => id === "booth")?.note !== NO_SPRAYER;
}

/** Coatings whose every oven is out of use cannot be planned; the lists of the others name only ovens in use. */
export function coatingsInUse(coatings: readonly CoatingFile[], ovens: readonly OvenFile[]): CoatingFile[] {
  const known = new Set(ovens.map(({ id }) => id));
  return coatings.flatMap((coating) => {
    const coats = coating.coats.map((coat) =>
      coat.ovens === undefined || coat.ovens === null
        ? coat
        : { ...coat, ovens: coat.ovens.filter((id) => known.has(id)) },
    );
    return coats.some(({ ovens: left }) => left?.length === 0) ? [] : [{ ...coating, coats }];
  });
}

export interface Unsprayed {
  readonly pans: PanFile[];
  readonly coatings: CoatingFile[];
  readonly onHold: OnHold[];
}

/** With nobody at the booth only coats that are on, or need no spraying, are planned; the coats after them wait. */
export function withoutSprayer(
  pans: readonly PanFile[],
  coatings: readonly CoatingFile[],
  inOven: ReadonlySet<string>,
): Unsprayed {
  const kept: PanFile[] = [];
  const onHold: OnHold[] = [];
  const cut = new Map<string, CoatingFile>();
  for (const pan of pans) {
    const coating = coatings.find(({ id }) => id === pan.coating);
    if (coating === undefined) continue;
    const last = lastCoatWithoutSpraying(pan, coating, inOven.has(pan.id));
    if (last < (pan.nextCoat ?? 1)) onHold.push({ pan: pan.id, why: "Nobody is at the booth to spray it." });
    else if (last === coating.coats.length) kept.push(pan);
    else {
      const id = `${coating.id}, to ${coating.coats[last - 1]?.name ?? `coat ${last}`}`;
      cut.set(id, { ...coating, id, coats: coating.coats.slice(0, last) });
      kept.push({ ...pan, coating: id });
    }
  }
  return { pans: kept, coatings: [...coatings, ...cut.values()], onHold };
}

function lastCoatWithoutSpraying(pan: PanFile, coating: CoatingFile, inOven: boolean): number {
  const next = pan.nextCoat ?? 1;
  let last = next - 1;
  for (let coat = next; coat <= coating.coats.length; coat++) {
    const isOn = coat === next && (pan.sprayed === true || inOven);
    if (!isOn && coating.coats[coat - 1]?.sprayMinutes !== 0) break;
    last = coat;
  }
  return last;
}
