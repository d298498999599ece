/** The zone must exist, the clock must show every local time once, and schedules fall on whole minutes. */
import type { Day } from "../../contract/day.ts";
import type { Path } from "../../contract/problem.ts";
import { isZone } from "../instants.ts";
import { nearest } from "../nearest.ts";
import type { Check } from "./check.ts";

interface InstantAt {
  readonly path: Path;
  readonly text: string | null;
  /** True for what a person does. */
  readonly wholeMinute: boolean;
}

export const zoneCheck: Check = {
  needs: ["timeZone"],
  find: ({ day }, report) => {
    if (isZone(day.timeZone)) return;
    const near = nearest(day.timeZone, Intl.supportedValuesOf("timeZone"));
    report.problem(["timeZone"], "unknown-zone", day.timeZone, { nearest: near });
  },
};

export const instantsCheck: Check = {
  needs: ["timeZone"],
  find: ({ day, read: readInstant }, report) => {
    for (const { path, text, wholeMinute } of instantsOf(day)) {
      const read = text === null ? undefined : readInstant(text);
      if (!read) continue;
      if (read.kind !== "instant") {
        const code = read.kind === "skipped" ? "skipped-time" : "repeated-time";
        report.problem(path, code, text, { zone: day.timeZone, earlier: read.earlier, later: read.later });
      } else if (wholeMinute && read.millis % 60_000 !== 0) report.problem(path, "not-whole-minute", text);
    }
  },
};

function instantsOf(day: Day): InstantAt[] {
  return [
    { path: ["planFrom"], text: day.planFrom, wholeMinute: false },
    { path: ["nextOpen"], text: day.nextOpen, wholeMinute: false },
    ...day.staffed.flatMap((interval, i) => fields(interval, ["from", "to"], ["staffed", i], true)),
    ...day.ovens.flatMap((oven, i) => fields(oven, ["outUntil"], ["ovens", i], true)),
    ...day.pans.flatMap((pan, i) => fields(pan, ["readyAt", "promisedAt"], ["pans", i], false)),
    ...day.held.flatMap((load, i) =>
      fields(load, ["doorOpensAt", "doorClosesAt", "burnerOffAt", "unloadAt", "doneAt"], ["held", i], true),
    ),
    ...day.inForce.flatMap((entry, i) => fields(entry, ["doorOpensAt"], ["inForce", i], false)),
    ...day.inForceLoads.flatMap((load, i) => fields(load, ["doorOpensAt"], ["inForceLoads", i], false)),
  ];
}

function fields<K extends string>(
  holder: Readonly<Record<K, string | null>>,
  names: readonly K[],
  path: Path,
  wholeMinute: boolean,
): InstantAt[] {
  return names.map((name) => ({ path: [...path, name], text: holder[name], wholeMinute }));
}
