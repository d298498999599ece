/**
 * One server a file. A companion file is locked for as long as the process lives; the system drops the lock when the
 * process ends, however it ends, so a killed server leaves nothing to clear away.
 */
import { openBare } from "./database.ts";

export class FileInUse extends Error {
  constructor(path: string) {
    super(`Another Ovenful server works on ${path}. Stop it first, or give this one another file with OVENFUL_DB.`);
    this.name = "FileInUse";
  }
}

/** Takes the file for this process; the answer gives it back. Throws `FileInUse`. */
export function takeFile(path: string): () => void {
  if (path === ":memory:") return () => undefined;
  const lock = openBare(`${path}-serving`);
  try {
    lock.exec("begin exclusive");
  } catch {
    lock.close();
    throw new FileInUse(path);
  }
  return () => {
    lock.exec("rollback");
    lock.close();
  };
}
