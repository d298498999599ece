/** A variant of the shop as rows, before anything is planned from it; the stored rows stay as they are. */
import type { DayFile } from "../contract/day.ts";
import type { Variant } from "../contract/what-if.ts";
import type { ShopRows } from "../shop/day-rows.ts";
import { hasSprayer, ovenNote } from "../shop/equipment.ts";
import type { ShopTime } from "../shop/instants.ts";
import { MINUTE } from "../shop/instants.ts";
import type { EditedRow } from "../store/tables.ts";

type OvenFile = DayFile["ovens"][number];
type BoothFile = NonNullable<DayFile["booth"]>;

/** Rows of the variant, or why there is nothing to work out. */
export type Varied = { readonly ok: true; readonly rows: ShopRows } | { readonly ok: false; readonly why: string };

/** `asOf`: the minute that planning starts from, milliseconds. */
export function variantOf(rows: ShopRows, variant: Variant, asOf: number, time: ShopTime): Varied {
  switch (variant.kind) {
    case "wait":
      return { ok: true, rows: waiting(rows, asOf + variant.minutes * MINUTE, time) };
    case "sprayers":
      return moreSprayers(rows, variant.more);
    case "slack":
      return moreSlack(rows, variant.minutes);
    case "shelf-out":
      return withoutShelf(rows, variant.oven, variant.shelf);
  }
}

function waiting(rows: ShopRows, until: number, time: ShopTime): ShopRows {
  return withOvens(rows, (oven) => {
    const out = oven.outUntil ?? null;
    return out !== null && time.millis(out) >= until ? oven : { ...oven, outUntil: time.write(until) };
  });
}

function moreSprayers(rows: ShopRows, more: number): Varied {
  const row = rows.settings.find(({ id }) => id === "booth");
  const booth = row === undefined ? {} : (JSON.parse(row.body) as BoothFile);
  const { sprayers = 1 } = booth;
  const there = hasSprayer(rows) ? sprayers : 0;
  if (hasSprayer(rows) && sprayers === 0) return { ok: false, why: "The booth has no limit of sprayers as it is." };
  const body = JSON.stringify({ ...booth, sprayers: there + more });
  const changed: EditedRow = {
    ...(row ?? { id: "booth", place: 0, state: "in use", follows: "", version: 1 }),
    body,
    note: "",
  };
  return { ok: true, rows: { ...rows, settings: [...rows.settings.filter(({ id }) => id !== "booth"), changed] } };
}

/** What the day file's own default is. */
const standardSlackMinutes = 2;

function moreSlack(rows: ShopRows, minutes: number): Varied {
  const thermal = rows.ovens.some(({ body }) => (JSON.parse(body) as OvenFile).cycle.kind === "thermal");
  if (!thermal) return { ok: false, why: "Ovens with a fixed cycle know no slack." };
  const varied = withOvens(rows, (oven) => {
    const { cycle } = oven;
    if (cycle.kind === "fixed") return oven;
    return { ...oven, cycle: { ...cycle, slackMinutes: (cycle.slackMinutes ?? standardSlackMinutes) + minutes } };
  });
  return { ok: true, rows: varied };
}

function withoutShelf(rows: ShopRows, oven: string, shelf: string): Varied {
  const row = rows.ovens.find(({ id }) => id === oven);
  const space = row === undefined ? undefined : (JSON.parse(row.body) as OvenFile).space;
  if (row === undefined || space === undefined) return { ok: false, why: `There is no oven ${oven}.` };
  if (space.kind === "area" || !space.shelves.some(({ id }) => id === shelf))
    return { ok: false, why: `There is no shelf ${shelf} in ${oven}.` };
  const note = ovenNote(row.note);
  if (note.shelvesOut.includes(shelf)) return { ok: false, why: `Shelf ${shelf} of ${oven} is out already.` };
  const varied = { ...row, note: JSON.stringify({ ...note, shelvesOut: [...note.shelvesOut, shelf] }) };
  return { ok: true, rows: { ...rows, ovens: rows.ovens.map((one) => (one.id === oven ? varied : one)) } };
}

function withOvens(rows: ShopRows, change: (oven: OvenFile) => OvenFile): ShopRows {
  const ovens = rows.ovens.map((row) => ({ ...row, body: JSON.stringify(change(JSON.parse(row.body) as OvenFile)) }));
  return { ...rows, ovens };
}

export function variantWords(variant: Variant | null): string {
  if (variant === null) return "The day as it stands";
  switch (variant.kind) {
    case "wait":
      return `Wait ${variant.minutes} min before the next firing`;
    case "sprayers":
      return variant.more === 1 ? "One more sprayer" : `${variant.more} more sprayers`;
    case "slack":
      return `${variant.minutes} min more slack in every firing`;
    case "shelf-out":
      return `Shelf ${variant.shelf} of ${variant.oven} out of use`;
  }
}
