/** What a trade check sees and how it speaks. One check, one file of one idea; all.ts lists them. */
import type { Day, DayCoat, DayCoating, DayPan } from "../../contract/day.ts";
import type { Numbers, ProblemCode } from "../../contract/problem-words.ts";
import type { Path } from "../../contract/problem.ts";
import type { InstantRead } from "../instants.ts";

export interface Shop {
  readonly day: Day;
  /** Undefined where there is no such zone. */
  readonly read: (instant: string) => InstantRead | undefined;
  /** Milliseconds since 1970; undefined for no instant, and for one that the zone does not allow. */
  readonly at: (instant: string | null) => number | undefined;
  /** With the zone's offset. */
  readonly write: (millis: number) => string;
}

/** A problem refuses the day; a warning is only told. */
export interface Report {
  readonly problem: Say;
  readonly warning: Say;
}

type Say = (path: Path, code: ProblemCode, seen: unknown, numbers?: Numbers) => void;

export interface Check {
  /** Parts of the file it judges against: where the schema refuses one of them, the check is skipped. */
  readonly needs: readonly (keyof Day)[];
  readonly find: (shop: Shop, report: Report) => void;
}

/** A coat with its place in the file. */
export interface CoatAt {
  readonly coating: DayCoating;
  readonly coat: DayCoat;
  readonly path: Path;
}

export function coatsOf(day: Day): CoatAt[] {
  return day.coatings.flatMap((coating, i) =>
    coating.coats.map((coat, j) => ({ coating, coat, path: ["coatings", i, "coats", j] })),
  );
}

/** The coats still due of a pan, in order; empty where its coating is unknown or has no such coat. */
export function dueCoats(day: Day, pan: DayPan): readonly DayCoat[] {
  return day.coatings.find((coating) => coating.id === pan.coating)?.coats.slice(pan.nextCoat - 1) ?? [];
}
