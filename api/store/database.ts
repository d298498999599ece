/** Opens the shop's file: the only importer of the SQLite driver. An acknowledged write is on the disk. */
import { Kysely, SqliteDialect } from "kysely";
import Database from "libsql";
import { migrate } from "./migrate.ts";
import type { Tables } from "./tables.ts";

export type RawDatabase = Database.Database;
export type Db = Kysely<Tables>;

export interface OpenFile {
  readonly db: Db;
  readonly raw: RawDatabase;
  readonly close: () => Promise<void>;
}

/** `path` of a file, made where missing, or ":memory:". Throws where it is no database or of a newer version. */
export function openFile(path: string): OpenFile {
  const raw = openRaw(path);
  try {
    migrate(raw);
  } catch (error) {
    raw.close();
    throw error;
  }
  const db: Db = new Kysely<Tables>({ dialect: new SqliteDialect({ database: raw }) });
  return { db, raw, close: () => closeFile(db, raw, path) };
}

/** Write-ahead log with a sync at every commit: killed at any moment, the file holds every acknowledged write. */
export function openRaw(path: string): RawDatabase {
  const raw = new Database(path);
  raw.exec("pragma journal_mode = wal");
  raw.exec("pragma synchronous = full");
  raw.exec("pragma foreign_keys = on");
  raw.exec("pragma busy_timeout = 3000");
  raw.exec("pragma trusted_schema = off");
  return raw;
}

/** Without any setting: for the lock beside the file. */
export function openBare(path: string): RawDatabase {
  return new Database(path);
}

async function closeFile(db: Db, raw: RawDatabase, path: string): Promise<void> {
  if (path !== ":memory:") raw.prepare("pragma wal_checkpoint(truncate)").all();
  await db.destroy();
}
