/** `backup` and `restore`: the shop's file copied whole, and a copy put back. */
import { wallClock } from "../clock.ts";
import { readSettings } from "../settings.ts";
import { backUp, restoreFrom } from "../store/commands.ts";
import type { Arguments } from "./arguments.ts";
import { exitCode } from "./exit-code.ts";
import { typedPath } from "./files.ts";
import { withShopFile } from "./shop-file.ts";
import type { Terminal } from "./terminal.ts";

export async function runBackup({ words }: Arguments, { out }: Terminal): Promise<number> {
  const target = words[0] ?? "";
  const file = await withShopFile((shop) => {
    backUp(shop, typedPath(target));
    return shop;
  });
  out(`${file} is copied to ${target}\n`);
  return exitCode.ok;
}

export async function runRestore({ words }: Arguments, { out }: Terminal): Promise<number> {
  const copy = words[0] ?? "";
  const kept = await withShopFile((shop) => restoreFrom(shop, typedPath(copy), wallClock));
  const { file } = readSettings(process.env);
  out(`${file} is now as in ${copy}\n${kept === null ? "" : `As it was before it is kept in ${kept}\n`}`);
  return exitCode.ok;
}
