/** Breaks a sound day and plan in one place: paths as the faults write them, `loads[3].pans[2].soakMinutes`. */
import type { Day } from "../../../../api/contract/day.ts";
import { daySchema } from "../../../../api/contract/day.ts";
import type { PlanFile } from "../../../../api/contract/plan.ts";
import { planSchema } from "../../../../api/contract/plan.ts";
import type { DayAndPlan } from "./plan-from-decisions.ts";

export type Change = (value: unknown) => unknown;

/** One break: `day` and `plan` map paths to what becomes of the value there. */
export interface Break {
  readonly day?: Readonly<Record<string, Change>>;
  readonly plan?: Readonly<Record<string, Change>>;
}

export function spoiled(sound: DayAndPlan, { day = {}, plan = {} }: Break): { day: Day; plan: PlanFile } {
  return {
    day: daySchema.parse(changed(sound.dayFile, day)),
    plan: planSchema.parse(changed(sound.plan, plan)),
  };
}

export const to =
  (value: unknown): Change =>
  () =>
    value;

/** Adds to a number, or minutes to an instant (its offset is kept). */
export const plus =
  (amount: number): Change =>
  (value) => {
    if (typeof value === "number") return value + amount;
    const text = String(value);
    const offset = /(Z|[+-]\d\d:\d\d)$/.exec(text)?.[1] ?? "";
    const wall = new Date(Date.parse(`${text.slice(0, 19)}Z`) + amount * 60_000);
    return wall.toISOString().slice(0, 19) + offset;
  };

export const without =
  (...indices: readonly number[]): Change =>
  (list) =>
    Array.isArray(list) ? list.filter((_, index) => !indices.includes(index)) : list;

/** Appends entries, or copies of the entry at an index with some fields changed. */
export const withCopy =
  (index: number, fields: object = {}): Change =>
  (list) =>
    Array.isArray(list) ? [...list, { ...list[index], ...fields }] : list;

function changed(root: unknown, changes: Readonly<Record<string, Change>>): unknown {
  const copy = structuredClone(root);
  for (const [path, change] of Object.entries(changes)) {
    const keys = path.split(/[.[\]]+/).filter((key) => key !== "");
    const last = keys.pop() ?? "";
    let at: unknown = copy;
    for (const key of keys) at = fieldOf(at, key, path);
    if (typeof at !== "object" || at === null) throw new Error(`${path} leads nowhere`);
    Reflect.set(at, last, change(fieldOf(at, last, path)));
  }
  return copy;
}

function fieldOf(value: unknown, key: string, path: string): unknown {
  if (typeof value !== "object" || value === null) throw new Error(`${path} leads nowhere`);
  return Reflect.get(value, key);
}
