/** What the command line does to the shop's file: copy it, put a copy back, take days and lists of pans in and out. */
import { copyFileSync, existsSync, renameSync, rmSync } from "node:fs";
import type { Clock } from "../clock.ts";
import type { DayFile } from "../contract/day.ts";
import type { Problem } from "../contract/problem.ts";
import { addPans } from "../csv/add-pans.ts";
import { pansToCsv } from "../csv/pans-csv.ts";
import { readDay } from "../day/read-day.ts";
import { Refusal } from "../http/failure.ts";
import { inForceId } from "../plans/searches.ts";
import { dayOf, putDay, shopRows } from "../shop/day-rows.ts";
import { record } from "../shop/edit.ts";
import type { Change } from "./change.ts";
import { beginChange } from "./change.ts";
import { openFile, openRaw } from "./database.ts";
import type { OpenFile } from "./database.ts";
import { newestVersion, versionOf } from "./migrate.ts";
import { takeFile } from "./one-writer.ts";
import type { PlanRow } from "./tables.ts";

/** Something a person must put right; the message says how. `problems` may be empty. */
export class CommandRefused extends Error {
  readonly problems: readonly Problem[];

  constructor(message: string, problems: readonly Problem[] = []) {
    super(message);
    this.name = "CommandRefused";
    this.problems = problems;
  }
}

/** A whole copy, also while the server runs. Never overwrites. */
export function backUp(file: string, target: string): void {
  if (!existsSync(file)) throw new CommandRefused(`There is no file ${file}.`);
  if (existsSync(target)) throw new CommandRefused(`${target} is there already: name another file.`);
  const raw = openRaw(file);
  try {
    raw.prepare("vacuum into ?").run(target);
  } finally {
    raw.close();
  }
}

/** Puts a copy in the file's place; the file as it was stays beside it. Answers where. Throws `FileInUse` while a server runs. */
export function restoreFrom(file: string, copy: string, clock: Clock): string | null {
  if (!existsSync(copy)) throw new CommandRefused(`There is no file ${copy}.`);
  checkCopy(copy);
  const giveBack = takeFile(file);
  try {
    const stamp = new Date(clock.now()).toISOString().replace(/[:.]/g, "-");
    const kept = existsSync(file) ? `${file}.before-${stamp}` : null;
    if (kept !== null) {
      backUp(file, kept);
      for (const end of ["-wal", "-shm"]) rmSync(`${file}${end}`, { force: true });
    }
    const fresh = `${file}.restoring`;
    copyFileSync(copy, fresh);
    renameSync(fresh, file);
    return kept;
  } finally {
    giveBack();
  }
}

function checkCopy(copy: string): void {
  try {
    const raw = openRaw(copy);
    try {
      const sound = raw.prepare("pragma integrity_check").all() as readonly { integrity_check: string }[];
      const version = versionOf(raw);
      if (sound[0]?.integrity_check !== "ok") throw new CommandRefused(`${copy} is damaged.`);
      if (version < 1 || version > newestVersion)
        throw new CommandRefused(`${copy} is no Ovenful file that this program knows (version ${version}).`);
    } finally {
      raw.close();
    }
  } catch (error) {
    if (error instanceof CommandRefused) throw error;
    throw new CommandRefused(`${copy} is no Ovenful file.`);
  }
}

/** The day as it stands, as the text of a day file. */
export async function exportDay(file: string): Promise<string> {
  return reading(file, async (store) => {
    const day = dayOf(await shopRows(store.db));
    if (day === undefined) throw new CommandRefused("The file holds no day yet.");
    return `${JSON.stringify(day, null, 2)}\n`;
  });
}

/** Pans that are waiting, as a table. */
export async function exportPans(file: string): Promise<string> {
  return reading(file, async (store) => pansToCsv(dayOf(await shopRows(store.db))?.pans ?? []));
}

/** A search of the file with all that is kept of it. `id` may be `in-force`. */
export async function keptPlan(file: string, id: string): Promise<PlanRow> {
  return reading(file, async ({ db }) => {
    const asked = id === "in-force" ? await inForceId(db) : id;
    if (asked === null) throw new CommandRefused("No plan is in force.");
    const [row] = await db.selectFrom("plan").selectAll().where("id", "=", asked).execute();
    if (row === undefined) throw new CommandRefused(`The file holds no plan ${asked}.`);
    return row;
  });
}

async function reading<T>(file: string, work: (store: OpenFile) => Promise<T>): Promise<T> {
  if (!existsSync(file)) throw new CommandRefused(`There is no file ${file}.`);
  const store = openFile(file);
  try {
    return await work(store);
  } finally {
    await store.db.destroy();
  }
}

/** Replaces the day by a day file (its bytes), all or nothing. `name`: what the caller calls it. */
export async function importDay(file: string, name: string, bytes: Uint8Array, clock: Clock): Promise<void> {
  const read = readDay(bytes);
  if (!read.ok) throw new CommandRefused(`${name} is not sound, so nothing was changed.`, read.problems);
  const day = JSON.parse(new TextDecoder().decode(bytes)) as DayFile;
  await writing(file, async (change) => {
    await putDay(change, day);
    await record({ clock }, change, { who: WHO, kind: "day-put", subject: day.title ?? "", body: {} });
  });
}

/** Adds a table of pans (its text), all rows or none. Answers how many. */
export async function importPans(file: string, table: string, clock: Clock): Promise<number> {
  let added = 0;
  await writing(file, async (change) => {
    ({ added } = await addPans({ clock }, change, table, WHO));
  });
  return added;
}

/** As the event log names it. */
const WHO = "command line";

async function writing(file: string, work: (change: Change) => Promise<void>): Promise<void> {
  const giveBack = takeFile(file);
  try {
    const store = openFile(file);
    try {
      await store.db.transaction().execute(async (trx) => work(beginChange(trx)));
    } finally {
      await store.close();
    }
  } catch (error) {
    if (error instanceof Refusal) throw new CommandRefused(error.message, error.problems);
    throw error;
  } finally {
    giveBack();
  }
}
