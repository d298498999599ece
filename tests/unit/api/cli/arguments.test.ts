import { describe, expect, it } from "vitest";
import { numberOption, readArguments } from "../../../../api/cli/arguments.ts";
import { commands } from "../../../../api/cli/commands.ts";
import { commandHelp, mainHelp } from "../../../../api/cli/help.ts";

const plan = commands["plan"];
if (!plan) throw new Error("there is a plan subcommand");
const read = (...args: string[]) => readArguments(plan, args);

describe("the words after a subcommand", () => {
  it("are its files and options, in any order", () => {
    const args = read("--seed", "7", "day.json", "--json", "--out=plan.json");
    expect(args.words).toEqual(["day.json"]);
    expect(args.values).toMatchObject({ seed: "7", json: true, out: "plan.json" });
  });

  it("may be - for stdin, and a file whose name starts with a dash after --", () => {
    expect(read("-").words).toEqual(["-"]);
    expect(read("--", "-day.json").words).toEqual(["-day.json"]);
  });

  it.each([
    [["day.json", "--secnods", "3"], /no option --secnods.*--seconds/],
    [["day.json", "--quickly"], /no option --quickly\.$/],
    [["day.json", "--seconds"], /--seconds needs a value/],
    [["day.json", "--json=yes"], /--json takes no value/],
    [[], /DAY\.json is missing/],
    [["day.json", "other.json"], /Nothing is known about "other\.json"/],
  ])("%j are refused with the way out", (args, message) => {
    expect(() => read(...args)).toThrow(message);
  });

  it("need no file to ask for help", () => {
    expect(read("--help").values["help"]).toBe(true);
    expect(read("-h").values["help"]).toBe(true);
  });
});

describe("a number among the options", () => {
  const limits = { least: 0, most: 100 };

  it("is read, or undefined where it is not given", () => {
    expect(numberOption(read("d", "--gap", "0.5"), "gap", limits)).toBe(0.5);
    expect(numberOption(read("d"), "gap", limits)).toBeUndefined();
  });

  it.each([
    ["ten", /allowed is a number from 0 to 100/],
    ["", /allowed is a number/],
    ["101", /allowed is a number from 0 to 100/],
    ["0,5", /Write a point/],
    ["Infinity", /allowed is a number/],
  ])("that is %j is refused", (value, message) => {
    expect(() => numberOption(read("d", `--gap=${value}`), "gap", limits)).toThrow(message);
  });

  it("that must be whole is refused with a fraction", () => {
    expect(() => numberOption(read("d", "--steps", "2.5"), "steps", { ...limits, whole: true })).toThrow(
      /a whole number/,
    );
  });
});

describe("the help", () => {
  it("lists every subcommand, and of each every option, in 100 columns", () => {
    for (const [name, command] of Object.entries(commands)) {
      expect(mainHelp()).toContain(command.summary);
      const help = commandHelp(name, command);
      for (const option of Object.keys(command.options)) expect(help).toContain(`--${option}`);
      for (const line of [...help.split("\n"), ...mainHelp().split("\n")])
        expect(Array.from(line).length, line).toBeLessThanOrEqual(100);
    }
  });
});
