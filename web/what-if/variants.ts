/** What can be tried: waiting, a sprayer more, more slack, a shelf out. */
import type { DayFile } from "../../api/contract/day.ts";
import type { Variant, WhatIf } from "../../api/contract/what-if.ts";
import { ovenName } from "../parts/day-lookup.ts";
import { ask } from "../shell/service.ts";
import { words } from "../shell/words-en.ts";

export interface Option {
  /** Of the form's own; unique. */
  readonly id: string;
  readonly said: string;
  readonly variant: Variant;
}

const waits = [15, 30, 60] as const;
const moreSlackMinutes = 3;

/** The ones that every day has. */
export function usualOptions(day: DayFile): readonly Option[] {
  const w = words.whatIf;
  const hasSlack = day.ovens.some(({ cycle }) => cycle.kind === "thermal");
  return [
    ...waits.map((minutes): Option => ({
      id: `wait-${minutes}`,
      said: w.wait(minutes),
      variant: { kind: "wait", minutes },
    })),
    ...(day.booth?.sprayers === 0
      ? []
      : [{ id: "sprayers", said: w.sprayer, variant: { kind: "sprayers", more: 1 } } as const]),
    ...(hasSlack
      ? [
          {
            id: "slack",
            said: w.slack(moreSlackMinutes),
            variant: { kind: "slack", minutes: moreSlackMinutes },
          } as const,
        ]
      : []),
  ];
}

/** A shelf that may be left out: where an oven has several, or there are several ovens. */
export function shelfOptions(day: DayFile): readonly Option[] {
  return day.ovens.flatMap(({ id: oven, space }) =>
    space.kind === "area" || (space.shelves.length === 1 && day.ovens.length === 1)
      ? []
      : space.shelves.map(({ id: shelf }): Option => ({
          id: `${oven} ${shelf}`,
          said: words.whatIf.ofOven(shelf, ovenName(day, oven)),
          variant: { kind: "shelf-out", oven, shelf },
        })),
  );
}

/** Of each: enough to tell an hour from half of it, few enough to wait for. */
const steps = 800;

const at = (id: string): string => `/what-ifs/${encodeURIComponent(id)}`;
export const askWhatIf = (variants: readonly Variant[]): Promise<WhatIf> =>
  ask("POST", "/what-ifs", { variants, steps });
export const stopWhatIf = (id: string): Promise<WhatIf> => ask("DELETE", at(id));

const againMs = 400;

/** Reads it until it is worked out or stopped. Answers how to leave off. */
export function followWhatIf(id: string, tell: (read: WhatIf) => void, fail: (trouble: unknown) => void): () => void {
  let again: ReturnType<typeof setTimeout> | undefined;
  let isLeft = false;
  const look = async (): Promise<void> => {
    const read = await ask<WhatIf>("GET", at(id));
    if (isLeft) return;
    tell(read);
    if (read.state === "searching") again = setTimeout(() => void look().catch(fail), againMs);
  };
  void look().catch(fail);
  return () => {
    isLeft = true;
    clearTimeout(again);
  };
}
