/** The shop's file as the subcommands that copy it, fill it and read it out find it. */
import { BadSetting, readSettings } from "../settings.ts";
import { CommandRefused } from "../store/commands.ts";
import { NewerFile } from "../store/migrate.ts";
import { FileInUse } from "../store/one-writer.ts";
import { BadInput } from "./bad-input.ts";
import { isSystemError, systemWords } from "./files.ts";

/** `work` is given the path of the shop's file. What a person can put right becomes `BadInput`. */
export async function withShopFile<T>(work: (file: string) => T | Promise<T>): Promise<T> {
  try {
    return await work(readSettings(process.env).file);
  } catch (error) {
    if (error instanceof CommandRefused) throw new BadInput(error.message, error.problems);
    if (error instanceof FileInUse || error instanceof NewerFile || error instanceof BadSetting)
      throw new BadInput(error.message);
    if (isSqlite(error)) throw new BadInput(`The shop's file cannot be used: ${error.message}.`);
    if (isSystemError(error)) throw new BadInput(`The shop's file cannot be used: ${systemWords(error)}.`);
    throw error;
  }
}

/** The driver's own errors: some carry a code, a file that cannot be opened only says so. */
function isSqlite(error: unknown): error is Error {
  if (!(error instanceof Error)) return false;
  return ("code" in error && String(error.code).startsWith("SQLITE")) || error.message.startsWith("ConnectionFailed");
}
