/**
 * One change to the shop: rows put or dropped and one event that says who, when, what for. All in one transaction, with
 * the rows as they were kept in the event, so that it can be undone. The only writer of the edited tables.
 */
import { sql } from "kysely";
import type { Transaction } from "kysely";
import type { Db } from "./database.ts";
import type { EditedRow, EditedTable, Tables } from "./tables.ts";

export type Trx = Transaction<Tables>;

/** A row before the change (null: it was not there) and its version after it (null: it is gone). */
export interface Image {
  readonly table: EditedTable | "in force";
  readonly id: string;
  readonly before: EditedRow | string | null;
  readonly after: number | string | null;
}

export interface NewEvent {
  readonly at: string;
  readonly who: string;
  readonly kind: string;
  readonly subject: string;
  readonly body: unknown;
  readonly undoes?: number;
}

/** `version` only to put a row back as it was: otherwise the change gives it one. */
export type RowParts = Partial<Omit<EditedRow, "id">>;

export interface Change {
  readonly trx: Trx;
  /** Adds the row or changes the parts given. */
  readonly put: (table: EditedTable, id: string, parts: RowParts) => Promise<void>;
  readonly drop: (table: EditedTable, id: string) => Promise<void>;
  readonly setInForce: (plan: string | null) => Promise<void>;
  /** Writes the event with all that was changed since the one before. Answers its number. */
  readonly record: (event: NewEvent) => Promise<number>;
}

const defaultState: Record<EditedTable, string> = {
  setting: "in use",
  coating: "in use",
  oven: "in use",
  pan: "waiting",
  load: "planned",
};

/** Begins a change; the revision of the shop goes up once, with the first thing that is changed. */
export function beginChange(trx: Trx): Change {
  let counted: Promise<number> | undefined;
  const revision = (): Promise<number> => (counted ??= nextRevision(trx));
  const images = new Map<string, Image>();
  const remember = (image: Image): void => {
    const key = `${image.table}\n${image.id}`;
    const known = images.get(key);
    // Null tells that the row was not there.
    images.set(key, known === undefined ? image : { ...image, before: known.before });
  };
  return {
    trx,
    put: async (table, id, parts) => remember(await putRow(trx, { table, id, parts, version: await revision() })),
    drop: async (table, id) => {
      const before = await rowOf(trx, table, id);
      if (before === undefined) return;
      await revision();
      await sql`delete from ${sql.table(table)} where id = ${id}`.execute(trx);
      remember({ table, id, before, after: null });
    },
    setInForce: async (plan) => {
      await revision();
      const [shop] = await trx.selectFrom("shop").select("in_force").execute();
      await trx.updateTable("shop").set({ in_force: plan }).execute();
      remember({ table: "in force", id: "1", before: shop?.in_force ?? null, after: plan });
    },
    record: async (event) => {
      await revision();
      const before = [...images.values()];
      images.clear();
      return recordEvent(trx, event, before);
    },
  };
}

async function nextRevision(trx: Trx): Promise<number> {
  await trx
    .updateTable("shop")
    .set((shop) => ({ revision: shop("revision", "+", 1) }))
    .execute();
  return revisionOf(trx);
}

interface Put {
  readonly table: EditedTable;
  readonly id: string;
  readonly parts: RowParts;
  readonly version: number;
}

async function putRow(trx: Trx, { table, id, parts, version }: Put): Promise<Image> {
  const before = await rowOf(trx, table, id);
  const place = parts.place ?? before?.place ?? (await nextPlace(trx, table));
  const fresh = { body: "{}", state: defaultState[table], note: "", follows: "" };
  const row = { ...fresh, ...before, version, ...parts, place };
  await sql`insert into ${sql.table(table)} (id, place, body, state, note, follows, version)
    values (${id}, ${place}, ${row.body}, ${row.state}, ${row.note}, ${row.follows}, ${row.version})
    on conflict (id) do update set place = excluded.place, body = excluded.body, state = excluded.state,
      note = excluded.note, follows = excluded.follows, version = excluded.version`.execute(trx);
  return { table, id, before: before ?? null, after: row.version };
}

async function nextPlace(trx: Trx, table: EditedTable): Promise<number> {
  const found = await sql<{ last: number | null }>`select max(place) as last from ${sql.table(table)}`.execute(trx);
  return (found.rows[0]?.last ?? 0) + 1;
}

async function recordEvent(trx: Trx, event: NewEvent, before: readonly Image[]): Promise<number> {
  const [row] = await trx
    .insertInto("event")
    .values({
      at: event.at,
      who: event.who,
      kind: event.kind,
      subject: event.subject,
      body: JSON.stringify(event.body),
      before: JSON.stringify(before),
      undoes: event.undoes ?? null,
    })
    .returning("id")
    .execute();
  return row?.id ?? 0;
}

/**
 * Puts every row of an event's images back, version and all, so that what was changed before can be undone next; answers
 * the first row that has changed since, and then changes nothing.
 */
export async function restore(change: Change, images: readonly Image[]): Promise<Image | undefined> {
  for (const image of images) if ((await versionNow(change.trx, image)) !== image.after) return image;
  for (const { table, id, before } of images) {
    if (table === "in force") await change.setInForce(typeof before === "string" ? before : null);
    else if (before === null || typeof before === "string") await change.drop(table, id);
    else await change.put(table, id, before);
  }
  return undefined;
}

async function versionNow(trx: Trx, { table, id }: Image): Promise<number | string | null> {
  if (table !== "in force") return (await rowOf(trx, table, id))?.version ?? null;
  const [shop] = await trx.selectFrom("shop").select("in_force").execute();
  return shop?.in_force ?? null;
}

export async function rowOf(db: Db | Trx, table: EditedTable, id: string): Promise<EditedRow | undefined> {
  const found = await sql<EditedRow>`select * from ${sql.table(table)} where id = ${id}`.execute(db);
  return found.rows[0];
}

export async function rowsOf(db: Db | Trx, table: EditedTable): Promise<readonly EditedRow[]> {
  const found = await sql<EditedRow>`select * from ${sql.table(table)} order by place, id`.execute(db);
  return found.rows;
}

export async function revisionOf(db: Db | Trx): Promise<number> {
  const [shop] = await db.selectFrom("shop").select("revision").execute();
  return shop?.revision ?? 0;
}
