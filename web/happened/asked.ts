/** What each kind of report asks for, and the choices the day leaves. */
import type { DayFile } from "../../api/contract/day.ts";
import { clockOf } from "../parts/clock.ts";
import { ovenName } from "../parts/day-lookup.ts";
import { isToCome, isUnderWay } from "../parts/load-now.ts";
import type { LoadNow } from "../parts/load-now.ts";
import { words } from "../shell/words-en.ts";

export type Kind = keyof typeof words.happened.kinds;
export type Field =
  "load" | "oven" | "shelf" | "ticket" | "cause" | "until" | "minutes" | "unitsLeft" | "maxDrawKW" | "sprayers";

export const asked: Readonly<Record<Kind, readonly Field[]>> = {
  "load-late": ["load", "minutes"],
  "load-interrupted": ["load", "cause"],
  "oven-out": ["oven", "until"],
  "oven-back": ["oven"],
  "shelf-out": ["oven", "shelf"],
  "shelf-back": ["oven", "shelf"],
  "gas-left": ["unitsLeft", "maxDrawKW"],
  "bottle-changed": ["unitsLeft", "maxDrawKW"],
  "sprayers-changed": ["sprayers"],
  "ticket-handed-over": ["ticket"],
};

export type Choice = readonly [value: string, said: string];

interface Known {
  readonly day: DayFile;
  readonly loads: readonly LoadNow[];
  readonly now: number;
  readonly kind: Kind;
  /** Chosen so far. */
  readonly oven: string;
}

/** Empty where the field is no choice, or where nothing is left to choose. */
export function choicesOf(field: Field, { day, loads, now, kind, oven }: Known): readonly Choice[] {
  switch (field) {
    case "load":
      return loads
        .filter((one) => isUnderWay(one, now) || (kind === "load-late" && isToCome(one, now)))
        .map(({ id, load }) => [id, `${id}, ${ovenName(day, load.oven)}, ${clockOf(load.doorOpensAt)}`]);
    case "oven":
      return day.ovens
        .filter(({ space }) => kind.startsWith("oven") || space.kind === "shelves")
        .map(({ id, name }) => [id, name ?? id]);
    case "shelf": {
      const space = day.ovens.find(({ id }) => id === oven)?.space;
      return space?.kind === "shelves" ? space.shelves.map(({ id }) => [id, id]) : [];
    }
    case "ticket":
      return [...new Set(day.pans.map(({ id, ticket }) => ticket ?? id))].map((one) => [one, one]);
    case "cause":
      return Object.values(words.happened.causes).map((one) => [one, one]);
    default:
      return [];
  }
}
