/** A what-if that was asked, as it is kept while it is worked out and after, and as it is told. */
import type { Variant, WhatIf, WhatIfAsk, WhatIfCase } from "../contract/what-if.ts";
import { shopTime } from "../shop/instants.ts";
import type { Stand } from "../shop/stand.ts";
import { apartWords, figuresApart } from "./figures.ts";
import { variantWords } from "./variants.ts";

/** A variant to search, or why there is nothing to search. */
export interface Case {
  readonly variant: Variant | null;
  readonly stand: Stand | null;
  readonly problem: string | null;
}

export interface Asked {
  readonly id: string;
  readonly ask: WhatIfAsk;
  readonly stand: Stand;
  /** The day as it stands first. */
  readonly cases: { told: WhatIfCase; readonly stand: Stand | null; readonly minded: string[] }[];
  readonly waiting: Set<() => void>;
  stopped: boolean;
}

export function caseOf({ variant, stand, problem }: Case): Asked["cases"][number] {
  const words = variantWords(variant);
  const state = stand === null ? ("failed" as const) : ("queued" as const);
  const open = { steps: null, figures: null, difference: null, told: [] };
  return { told: { variant, words, state, problem, ...open }, stand, minded: [] };
}

export function stateOf({ cases, stopped }: Asked): WhatIf["state"] {
  if (cases.every(({ told }) => told.state === "done" || told.state === "failed")) return "done";
  return stopped ? "stopped" : "searching";
}

export function shown(asked: Asked): WhatIf {
  const { id, ask, stand, cases } = asked;
  const currency = stand.day.currency ?? "EUR";
  const base = cases[0]?.told.figures ?? null;
  const all = cases.map(({ told, minded }): WhatIfCase => {
    if (told.variant === null || told.figures === null || base === null) return { ...told, told: minded };
    const difference = figuresApart(base, told.figures);
    const doubt = isUnended(told.variant, difference.cost) ? [unended] : [];
    return { ...told, difference, told: [...apartWords(difference, currency), ...doubt, ...minded] };
  });
  const [first, ...variants] = all;
  if (first === undefined) throw new Error("a what-if without the day as it stands");
  return {
    id,
    state: stateOf(asked),
    asOf: shopTime(stand.day).write(stand.asOf),
    currency,
    steps: ask.steps,
    base: first,
    variants,
  };
}

const unended =
  "No plan of it can truly be on this side of the day as it stands: the searches have not ended, and differ by this much.";

/** Whether a day with more hands came out dearer, or one with less room or time cheaper: `costApart` is the variant's less the day's. */
function isUnended({ kind }: Variant, costApart: number): boolean {
  return kind === "sprayers" ? costApart > leastMoney : costApart < -leastMoney;
}

const leastMoney = 0.005;
