/** `demo`: copies the invented days that come with the program to where somebody can change them. */
import { mkdir, readFile, readdir } from "node:fs/promises";
import { join } from "node:path";
import type { Arguments } from "./arguments.ts";
import { BadInput } from "./bad-input.ts";
import { exitCode } from "./exit-code.ts";
import { systemWords, typedPath, writeAtomically } from "./files.ts";
import type { Terminal } from "./terminal.ts";

const source = new URL("../../fixtures/shops/", import.meta.url);

export async function runDemo({ words }: Arguments, { out }: Terminal): Promise<number> {
  const folder = words[0] ?? "demo-days";
  const names = (await readdir(source)).filter((name) => name.endsWith(".json")).toSorted();
  const days = await Promise.all(
    names.map(async (name) => ({ name, text: await readFile(new URL(name, source), "utf8") })),
  );
  const target = typedPath(folder);
  await refuseToOverwrite(target, days);
  try {
    await mkdir(target, { recursive: true });
  } catch (error) {
    throw new BadInput(`${folder} cannot be made: ${systemWords(error)}.`);
  }
  for (const { name, text } of days) await writeAtomically(join(target, name), text);
  out(days.map(({ name }) => `${join(folder, name)}\n`).join(""));
  out(`\nTry: npm run -s ovenful -- plan ${join(folder, names[0] ?? "")} --seconds 3\n`);
  return exitCode.ok;
}

interface DemoDay {
  readonly name: string;
  readonly text: string;
}

async function refuseToOverwrite(folder: string, days: readonly DemoDay[]): Promise<void> {
  const changed: string[] = [];
  for (const { name, text } of days) {
    const there = await readFile(join(folder, name), "utf8").catch(() => undefined);
    if (there !== undefined && there !== text) changed.push(join(folder, name));
  }
  if (changed.length > 0)
    throw new BadInput(`Not overwritten, because it is there and differs: ${changed.join(", ")}. Name another folder.`);
}
