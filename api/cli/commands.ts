/** The subcommands and the words that describe them. Loaded at every start, so it pulls in nothing heavy. */
import type { Arguments, CommandWords } from "./arguments.ts";
import type { Terminal } from "./terminal.ts";

/** Answers the exit code. */
export type Run = (args: Arguments, terminal: Terminal) => Promise<number>;

export interface Command extends CommandWords {
  /** Loads the code that does it: a subcommand pays only for what it uses. */
  readonly load: () => Promise<Run>;
}

const json = { type: "boolean", about: "JSON on stdout instead of text" } as const;

export const commands: Readonly<Record<string, Command>> = {
  plan: {
    summary: "plan the firings of a day",
    takes: ["DAY.json"],
    options: {
      out: { type: "string", value: "PLAN.json", about: "write the plan file here too" },
      seconds: {
        type: "string",
        value: "10",
        about: "search at most so long (default 10; none where only --steps is given)",
      },
      seed: { type: "string", value: "1", about: "another seed searches elsewhere (default 1)" },
      steps: { type: "string", value: "N", about: "search at most so many steps; same day, seed and steps: same plan" },
      gap: {
        type: "string",
        value: "0.1",
        about: "stop once the plan is proven this close to the best, in percent (default 0.1)",
      },
      json: { type: "boolean", about: "plan file on stdout; on stderr a line of JSON for each better plan" },
    },
    notes: [
      "DAY.json may be - for stdin. Ctrl-C ends the search with the best plan so far, twice quits at once.",
      'A line of progress is {"event":"plan","seconds":0.6,"cost":101.6,"bound":98.2}: seconds since the program started, money, and what no plan can cost less than (0: not known).',
      "Exit codes: 0 planned, 1 a mistake of this program, 2 bad input, 3 no pan can be planned.",
    ],
    load: async () => (await import("./plan-command.ts")).runPlan,
  },
  verify: {
    summary: "check a plan file against its day file, by arithmetic of its own",
    takes: ["DAY.json", "PLAN.json"],
    options: { json },
    notes: ["Exit codes: 0 sound, 1 the plan breaks a rule (each fault is told), 2 one of the files is bad."],
    load: async () => (await import("./verify-command.ts")).runVerify,
  },
  explain: {
    summary: "say whether two pans may share a firing, and if not, why",
    takes: ["DAY.json", "ID", "ID"],
    options: { json },
    notes: ["The next coat due of each, alone together in an empty oven. Exit codes: 0 answered, 2 bad input."],
    load: async () => (await import("./explain-command.ts")).runExplain,
  },
  demo: {
    summary: "write invented day files to try things with",
    takes: ["[FOLDER]"],
    options: {},
    notes: ["FOLDER is demo-days where none is given. A file there that differs is never overwritten."],
    load: async () => (await import("./demo-command.ts")).runDemo,
  },
};
