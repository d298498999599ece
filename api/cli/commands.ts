/** The subcommands and the words that describe them. Loaded at every start, so it pulls in nothing heavy. */
import type { Arguments, CommandWords } from "./arguments.ts";
import type { Terminal } from "./terminal.ts";

/** Answers the exit code. */
export type Run = (args: Arguments, terminal: Terminal) => Promise<number>;

export interface Command extends CommandWords {
  /** Loads the code that does it: a subcommand pays only for what it uses. */
  readonly load: () => Promise<Run>;
}

const shopFile = "The shop's file is ./ovenful.db, or what OVENFUL_DB names.";
const pans = { type: "boolean", about: "the pans as CSV; understood by itself where FILE ends in .csv" } as const;
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
  serve: {
    summary: "serve the page and the API to this shop",
    takes: [],
    options: {},
    notes: [
      "As npm start, with the page as it was last built. OVENFUL_DB names the shop's file (default ./ovenful.db), OVENFUL_PORT the port (default 8742). OVENFUL_HOST lets other machines in and wants OVENFUL_TOKEN, a secret of at least 16 characters; OVENFUL_NAMES lists further names of this machine, OVENFUL_LOG how much is logged (info).",
      "Ctrl-C answers what was accepted and stops, twice stops at once. Exit codes: 0 stopped, 1 it could not start.",
    ],
    load: async () => (await import("./serve-command.ts")).runServe,
  },
  backup: {
    summary: "copy the shop's file, also while it is served",
    takes: ["FILE"],
    options: {},
    notes: [shopFile, "FILE must not be there yet. Exit codes: 0 copied, 2 it cannot be."],
    load: async () => (await import("./backup-command.ts")).runBackup,
  },
  restore: {
    summary: "put a copy in the place of the shop's file",
    takes: ["FILE"],
    options: {},
    notes: [
      shopFile,
      "Stop the service first. The file as it was is kept beside it. Exit codes: 0 restored, 2 it cannot be, nothing was changed.",
    ],
    load: async () => (await import("./backup-command.ts")).runRestore,
  },
  remake: {
    summary: "make a plan of the shop's file again and say whether it is the same",
    takes: ["ID"],
    options: {
      out: { type: "string", value: "PLAN.json", about: "write the plan made again here, never over a file" },
    },
    notes: [
      shopFile,
      "ID is the plan's as GET /plans and GET /days tell it, or in-force. It takes about as long as the search took, and the same version of the program. Exit codes: 0 the same to the byte, 1 it is not, 2 it cannot be made again.",
    ],
    load: async () => (await import("./remake-command.ts")).runRemake,
  },
  export: {
    summary: "write the shop's day as a day file, or its waiting pans as CSV",
    takes: ["[FILE]"],
    options: { pans },
    notes: [
      shopFile,
      "FILE is stdout where none is given, and must not be there yet. Cells that a spreadsheet would take for a formula are made text. Exit codes: 0 written, 2 bad input.",
    ],
    load: async () => (await import("./exchange-command.ts")).runExport,
  },
  import: {
    summary: "replace the shop's day by a day file, or add pans from CSV",
    takes: ["FILE"],
    options: { pans },
    notes: [
      shopFile,
      "Stop the service first. FILE may be - for stdin. All or nothing: every problem is told, a table's by the number of its row. Commas or semicolons, decimal commas and a byte order mark are understood. Exit codes: 0 taken, 2 bad input, nothing was changed.",
    ],
    load: async () => (await import("./exchange-command.ts")).runImport,
  },
  demo: {
    summary: "write invented day files to try things with",
    takes: ["[FOLDER]"],
    options: {},
    notes: ["FOLDER is demo-days where none is given. A file there that differs is never overwritten."],
    load: async () => (await import("./demo-command.ts")).runDemo,
  },
};
