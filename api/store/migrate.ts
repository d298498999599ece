/** Brings a file to the newest version, forward only. `user_version` counts the steps taken; each is one transaction. */
import type { RawDatabase } from "./database.ts";
import { first } from "./migrations/001-first.ts";
import { course } from "./migrations/002-course.ts";

/** One list of statements a version. A step that has been published is never changed: add another. */
const steps: readonly (readonly string[])[] = [first, course];

export const newestVersion = steps.length;

/** The file was written by a later program. */
export class NewerFile extends Error {}

/** Throws `NewerFile` where the file is newer than this program: it would not know what it may break. */
export function migrate(database: RawDatabase, upTo: number = newestVersion): void {
  const version = versionOf(database);
  if (version > newestVersion)
    throw new NewerFile(
      `This file is of version ${version}; this program knows versions up to ${newestVersion}. Use a newer Ovenful.`,
    );
  for (let next = version; next < upTo; next++) {
    const statements = steps[next] ?? [];
    database.exec("begin immediate");
    try {
      for (const statement of statements) database.exec(statement);
      database.exec(`pragma user_version = ${next + 1}`);
      database.exec("commit");
    } catch (error) {
      database.exec("rollback");
      throw error;
    }
  }
}

export function versionOf(database: RawDatabase): number {
  const rows = database.prepare("pragma user_version").all() as readonly { user_version: number }[];
  return rows[0]?.user_version ?? 0;
}
