/** The command line: `npm run -s ovenful -- SUBCOMMAND …`. Finds the subcommand and loads only what it needs. */
import { readFileSync } from "node:fs";
import { ArgumentError, readArguments } from "./cli/arguments.ts";
import { BadInput } from "./cli/bad-input.ts";
import { commands } from "./cli/commands.ts";
import { exitCode } from "./cli/exit-code.ts";
import { commandHelp, mainHelp } from "./cli/help.ts";
import { problemLines } from "./cli/problem-lines.ts";
import { terminal } from "./cli/terminal.ts";
import type { Terminal } from "./cli/terminal.ts";
import { nearest } from "./day/nearest.ts";

const io = terminal();
process.exitCode = await main(process.argv.slice(2), io);

async function main([name, ...rest]: readonly string[], { out, err }: Terminal): Promise<number> {
  if (name === "--help" || name === "-h" || name === "help") return said(out, mainHelp());
  if (name === "--version") return said(out, `${version()}\n`);
  const command = name === undefined || !Object.hasOwn(commands, name) ? undefined : commands[name];
  if (name === undefined || command === undefined) return misunderstood(name, err);
  try {
    const args = readArguments(command, rest);
    if (args.values["help"] === true) return said(out, commandHelp(name, command));
    const run = await command.load();
    return await run(args, io);
  } catch (error) {
    if (error instanceof ArgumentError) {
      err(`${error.message}\n\n${commandHelp(name, command)}`);
      return exitCode.badInput;
    }
    if (error instanceof BadInput) return refused(error, rest.includes("--json"), err);
    const { ourFault } = await import("./cli/our-fault.ts");
    return ourFault(error, err);
  }
}

function said(out: Terminal["out"], text: string): number {
  out(text);
  return exitCode.ok;
}

/** With `--json` each problem is one line of JSON. */
function refused({ message, problems }: BadInput, json: boolean, err: Terminal["err"]): number {
  const whole = problems.length === 0 ? [{ message }] : problems;
  if (json) for (const problem of whole) err(`${JSON.stringify({ event: "problem", ...problem })}\n`);
  else err(`${[message, ...problemLines(problems)].join("\n")}\n`);
  return exitCode.badInput;
}

function misunderstood(name: string | undefined, err: Terminal["err"]): number {
  const near = name === undefined ? undefined : nearest(name, Object.keys(commands));
  const wrong =
    name === undefined
      ? ""
      : `There is no subcommand ${name}.${near === undefined ? "" : ` Did you mean ${near}?`}\n\n`;
  err(wrong + mainHelp());
  return exitCode.badInput;
}

function version(): string {
  const manifest: unknown = JSON.parse(readFileSync(new URL("../package.json", import.meta.url), "utf8"));
  if (typeof manifest === "object" && manifest !== null && "version" in manifest) return String(manifest.version);
  throw new Error("package.json has no version");
}
