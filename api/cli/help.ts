/** Help texts, made from the same words that the arguments are read by. */
import type { OptionWords } from "./arguments.ts";
import { commands } from "./commands.ts";
import type { Command } from "./commands.ts";
import { pad, wrap } from "./lines.ts";

const CALL = "npm run -s ovenful --";

export function mainHelp(): string {
  const names = Object.entries(commands);
  const width = Math.max(...names.map(([name]) => name.length));
  return [
    ...wrap(
      "Plans the firings of a batch oven: which pans share which load, on which shelf, at what set-point, in what order and when.",
    ),
    "",
    `Usage: ${CALL} SUBCOMMAND …`,
    "",
    ...names.map(([name, { summary }]) => `  ${pad(name, width)}  ${summary}`),
    "",
    `${CALL} SUBCOMMAND --help tells more; --version tells the version.`,
    "",
  ].join("\n");
}

export function commandHelp(name: string, command: Command): string {
  const options = Object.entries<OptionWords>({ ...command.options, help: { type: "boolean", about: "this text" } });
  const rows = options.map(
    ([option, { value, about }]) => [`--${option}${value === undefined ? "" : ` ${value}`}`, about] as const,
  );
  const width = Math.max(...rows.map(([option]) => option.length));
  return [
    `Usage: ${CALL} ${name} ${[...command.takes, "[OPTIONS]"].join(" ")}`,
    "",
    `${command.summary.charAt(0).toUpperCase()}${command.summary.slice(1)}.`,
    "",
    ...rows.flatMap(([option, about]) => wrap(about, `  ${pad(option, width)}  `, " ".repeat(width + 4))),
    "",
    ...command.notes.flatMap((note) => wrap(note)),
    "",
  ].join("\n");
}
