/** Files as the caller names them: read whole, written whole or not at all. */
import { randomUUID } from "node:crypto";
import { readFile, realpath, rename, rm, stat, writeFile } from "node:fs/promises";
import { dirname, resolve } from "node:path";
import { buffer } from "node:stream/consumers";
import { BadInput } from "./bad-input.ts";

/** npm runs its scripts in the project's folder, but a path means what it means where it was typed. */
export function typedPath(path: string): string {
  const { npm_lifecycle_event: script, INIT_CWD: typedIn } = process.env;
  return resolve(script === "ovenful" && typedIn !== undefined ? typedIn : process.cwd(), path);
}

/** `-` is stdin. Throws `BadInput`. */
export async function readInput(path: string): Promise<Uint8Array> {
  try {
    return path === "-" ? await buffer(process.stdin) : await readFile(typedPath(path));
  } catch (error) {
    throw new BadInput(`${path} cannot be read: ${systemWords(error)}.`);
  }
}

/** Asked before a long search, so that nobody waits for a plan that cannot be written. Throws `BadInput`. */
export async function checkWritable(path: string, input: string): Promise<void> {
  const target = typedPath(path);
  const folder = await kindOf(dirname(target));
  if (folder !== "folder") throw new BadInput(`${path} cannot be written: there is no folder ${dirname(target)}.`);
  if ((await kindOf(target)) === "folder") throw new BadInput(`${path} cannot be written: it is a folder.`);
  if (input !== "-" && (await real(typedPath(input))) === (await real(target)))
    throw new BadInput(`${path} is the day file itself; the plan needs a file of its own.`);
}

/** Written beside the target and renamed, so that a reader sees the old file or the new one. Throws `BadInput`. */
export async function writeAtomically(path: string, text: string): Promise<void> {
  const target = await real(typedPath(path));
  const beside = `${target}.${randomUUID()}.part`;
  try {
    await writeFile(beside, text, { flag: "wx" });
    await rename(beside, target);
  } catch (error) {
    await rm(beside, { force: true });
    throw new BadInput(`${path} cannot be written: ${systemWords(error)}.`);
  }
}

/** Never over a file that is there. Throws `BadInput`. */
export async function writeNew(path: string, text: string): Promise<void> {
  try {
    await writeFile(typedPath(path), text, { flag: "wx" });
  } catch (error) {
    throw new BadInput(`${path} cannot be written: ${systemWords(error)}.`);
  }
}

async function kindOf(path: string): Promise<"folder" | "file" | "nothing"> {
  try {
    return (await stat(path)).isDirectory() ? "folder" : "file";
  } catch {
    return "nothing";
  }
}

/** A link's target, or the path itself where nothing is there yet. */
async function real(path: string): Promise<string> {
  try {
    return await realpath(path);
  } catch {
    return path;
  }
}

const known: Readonly<Record<string, string>> = {
  EEXIST: "it is there already, so name another file",
  ENOENT: "there is no such file",
  EISDIR: "it is a folder",
  ENOTDIR: "a part of its path is no folder",
  EACCES: "it is not allowed",
  EPERM: "it is not allowed",
  ENOSPC: "the disk is full",
  EROFS: "the disk is read-only",
};

export function isSystemError(error: unknown): boolean {
  return error instanceof Error && "code" in error && Object.hasOwn(known, String(error.code));
}

export function systemWords(error: unknown): string {
  if (!(error instanceof Error)) return String(error);
  const code = "code" in error ? String(error.code) : "";
  return known[code] ?? error.message;
}
