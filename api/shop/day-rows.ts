/** The day file as rows and back: what was put in comes out as it was written, field by field. */
import type { DayFile } from "../contract/day.ts";
import type { Change, Trx } from "../store/change.ts";
import { rowsOf } from "../store/change.ts";
import type { Db } from "../store/database.ts";
import type { EditedRow } from "../store/tables.ts";

/** Lists of the day file that are kept row by row; every other field is one setting. */
const lists = { coatings: "coating", ovens: "oven", pans: "pan", held: "load" } as const;
type ListName = keyof typeof lists;
const listNames = ["coatings", "ovens", "pans", "held"] as const;

/** Which lists the file itself wrote; an empty list and a missing one are not the same text. */
const WRITTEN = "listsWritten";

export interface ShopRows {
  readonly settings: readonly EditedRow[];
  readonly coatings: readonly EditedRow[];
  readonly ovens: readonly EditedRow[];
  readonly pans: readonly EditedRow[];
  readonly loads: readonly EditedRow[];
}

export async function shopRows(db: Db | Trx): Promise<ShopRows> {
  return {
    settings: await rowsOf(db, "setting"),
    coatings: await rowsOf(db, "coating"),
    ovens: await rowsOf(db, "oven"),
    pans: await rowsOf(db, "pan"),
    loads: await rowsOf(db, "load"),
  };
}

/** The day as it stands: pans that are waiting, loads that were handed in as held. Undefined before a shop is set up. */
export function dayOf(rows: ShopRows): DayFile | undefined {
  if (rows.settings.length === 0) return undefined;
  const day: Record<string, unknown> = {};
  for (const { id, body } of rows.settings) if (!id.startsWith(WRITTEN)) day[id] = JSON.parse(body);
  const written = rows.settings.find(({ id }) => id === WRITTEN);
  const wrote = new Set<string>(written ? (JSON.parse(written.body) as string[]) : listNames);
  const put = (name: ListName, of: readonly EditedRow[]): void => {
    if (of.length > 0 || wrote.has(name)) day[name] = of.map(({ body }) => JSON.parse(body) as unknown);
  };
  put("coatings", rows.coatings);
  put("ovens", rows.ovens);
  put(
    "pans",
    rows.pans.filter(({ state }) => state === "waiting"),
  );
  put(
    "held",
    rows.loads.filter(({ note }) => note === HANDED_IN),
  );
  return day as DayFile;
}

/** Note of a load that came with the day file, not from a plan. */
export const HANDED_IN = "handed in";

/** Replaces the whole shop by a day file that `readDay` has accepted. The plan in force ends. */
export async function putDay(change: Change, day: DayFile): Promise<void> {
  await clearShop(change);
  let place = 0;
  for (const [field, value] of Object.entries(day)) {
    if (field in lists) continue;
    await change.put("setting", field, { body: JSON.stringify(value), place: ++place });
  }
  const wrote = listNames.filter((name) => day[name] !== undefined);
  await change.put("setting", WRITTEN, { body: JSON.stringify(wrote), place: ++place });
  for (const name of listNames) await putList(change, name, day[name] ?? []);
  await change.setInForce(null);
}

async function putList(change: Change, name: ListName, entries: readonly { readonly id: string }[]): Promise<void> {
  let place = 0;
  for (const entry of entries) {
    const parts = { body: JSON.stringify(entry), place: ++place };
    const held = name === "held" ? { state: heldState(entry), note: HANDED_IN } : {};
    await change.put(lists[name], entry.id.trim(), { ...parts, ...held });
  }
}

function heldState(entry: object): string {
  return "state" in entry && typeof entry.state === "string" ? entry.state : "pinned";
}

async function clearShop(change: Change): Promise<void> {
  for (const table of ["setting", "coating", "oven", "pan", "load"] as const)
    for (const { id } of await rowsOf(change.trx, table)) await change.drop(table, id);
}
