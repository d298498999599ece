/** The words after `ovenful`: options and files of one subcommand, every slip told with the nearest known word. */
import { parseArgs } from "node:util";
import { nearest } from "../day/nearest.ts";

export interface OptionWords {
  readonly type: "string" | "boolean";
  /** What stands after the option in the help, as in `--seconds 10`. */
  readonly value?: string;
  readonly about: string;
}

export interface CommandWords {
  readonly summary: string;
  /** Names of the files and ids it takes; in square brackets where they may be left out. */
  readonly takes: readonly string[];
  readonly options: Readonly<Record<string, OptionWords>>;
  /** Lines for the end of the help. */
  readonly notes: readonly string[];
}

export interface Arguments {
  readonly values: Readonly<Record<string, string | boolean | undefined>>;
  readonly words: readonly string[];
}

/** What somebody typed cannot be understood; the message has the way out. */
export class ArgumentError extends Error {}

/** `--help` and `-h` are known everywhere. Throws `ArgumentError`. */
export function readArguments(command: CommandWords, args: readonly string[]): Arguments {
  const known = { ...command.options, help: { type: "boolean" } } as const;
  const options = Object.fromEntries(
    Object.entries(known).map(([name, { type }]) => [name, name === "help" ? { type, short: "h" } : { type }] as const),
  );
  try {
    const { values, positionals } = parseArgs({ args: [...args], options, allowPositionals: true, strict: true });
    const seen: Arguments["values"] = Object.fromEntries(
      Object.entries(values).map(([name, value]) => [name, Array.isArray(value) ? undefined : value]),
    );
    if (seen["help"] !== true) checkCount(command, positionals);
    return { values: seen, words: positionals };
  } catch (error) {
    throw error instanceof ArgumentError ? error : inOurWords(error, Object.keys(known), known);
  }
}

function checkCount({ takes }: CommandWords, words: readonly string[]): void {
  const needed = takes.filter((word) => !word.startsWith("[")).length;
  const missing = takes[words.length];
  if (words.length < needed) throw new ArgumentError(`${missing} is missing.`);
  const extra = words[takes.length];
  if (extra !== undefined) throw new ArgumentError(`Nothing is known about ${JSON.stringify(extra)} here.`);
}

function inOurWords(
  error: unknown,
  names: readonly string[],
  known: Readonly<Record<string, { type: string }>>,
): unknown {
  if (!(error instanceof Error) || !("code" in error)) return error;
  const option = /'(?:-\w, )?(-{1,2}[^\s'=]+)/.exec(error.message)?.[1] ?? "";
  const name = option.replace(/^-+/, "");
  if (error.code === "ERR_PARSE_ARGS_UNKNOWN_OPTION") {
    const near = nearest(name, names);
    return new ArgumentError(`There is no option ${option}.${near === undefined ? "" : ` Did you mean --${near}?`}`);
  }
  if (error.code === "ERR_PARSE_ARGS_INVALID_OPTION_VALUE") {
    const lacks = known[name]?.type === "string";
    return new ArgumentError(lacks ? `${option} needs a value after it.` : `${option} takes no value.`);
  }
  return error;
}

export interface NumberLimits {
  readonly least: number;
  readonly most: number;
  readonly whole?: boolean;
}

/** The option's number, or undefined where it is not given. Throws `ArgumentError`. */
export function numberOption(args: Arguments, name: string, { least, most, whole }: NumberLimits): number | undefined {
  const text = args.values[name];
  if (typeof text !== "string") return undefined;
  const value = text.trim() === "" ? NaN : Number(text);
  if (value >= least && value <= most && (whole !== true || Number.isInteger(value))) return value;
  const kind = whole === true ? "a whole number" : "a number";
  const comma = /^\d+,\d+$/.test(text) ? " Write a point instead of the comma." : "";
  throw new ArgumentError(`--${name} is ${JSON.stringify(text)}; allowed is ${kind} from ${least} to ${most}.${comma}`);
}

/** The option's text, or undefined where it is not given. */
export function textOption(args: Arguments, name: string): string | undefined {
  const text = args.values[name];
  return typeof text === "string" ? text : undefined;
}
