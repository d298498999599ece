/** `export` and `import`: the day as a day file, or the pans that are waiting as a table, out of the shop's file and into it. */
import { wallClock } from "../clock.ts";
import { exportDay, exportPans, importDay, importPans } from "../store/commands.ts";
import type { Arguments } from "./arguments.ts";
import { BadInput } from "./bad-input.ts";
import { exitCode } from "./exit-code.ts";
import { readInput, writeNew } from "./files.ts";
import { plural } from "./lines.ts";
import { withShopFile } from "./shop-file.ts";
import type { Terminal } from "./terminal.ts";

export async function runExport(args: Arguments, { out }: Terminal): Promise<number> {
  const target = args.words[0] ?? "-";
  const text = await withShopFile((shop) => (isTable(args, target) ? exportPans(shop) : exportDay(shop)));
  if (target === "-") out(text);
  else {
    await writeNew(target, text);
    out(`${target} is written\n`);
  }
  return exitCode.ok;
}

export async function runImport(args: Arguments, { out }: Terminal): Promise<number> {
  const source = args.words[0] ?? "";
  const bytes = await readInput(source);
  const name = source === "-" ? "What came in" : source;
  if (isTable(args, source)) {
    const table = textOf(bytes, name);
    const added = await withShopFile((shop) => importPans(shop, table, wallClock));
    out(`${plural(added, "pan")} added\n`);
  } else {
    await withShopFile((shop) => importDay(shop, name, bytes, wallClock));
    out(`The day is now that of ${source === "-" ? "the input" : source}\n`);
  }
  return exitCode.ok;
}

function isTable({ values }: Arguments, file: string): boolean {
  return values["pans"] === true || file.toLowerCase().endsWith(".csv");
}

function textOf(bytes: Uint8Array, name: string): string {
  try {
    return new TextDecoder("utf-8", { fatal: true, ignoreBOM: true }).decode(bytes);
  } catch {
    throw new BadInput(`${name} is not UTF-8 text: save it as UTF-8 and read it again.`);
  }
}
