/** The good day of fixtures/broken with some of its values set or removed by path. */
import { readFileSync } from "node:fs";

const goodText = readFileSync(new URL("../../../../fixtures/broken/good-day.json", import.meta.url), "utf8");

export interface Patch {
  readonly set?: Readonly<Record<string, unknown>>;
  readonly remove?: readonly string[];
}

type Holder = Record<string | number, unknown>;

export function goodDay(): Holder {
  return JSON.parse(goodText) as Holder;
}

export function patchedDay({ set = {}, remove = [] }: Patch): Holder {
  const day = goodDay();
  for (const path of remove) {
    const { holder, key } = find(day, path);
    delete holder[key];
  }
  for (const [path, value] of Object.entries(set)) {
    const { holder, key } = find(day, path);
    holder[key] = structuredClone(value);
  }
  return day;
}

function find(day: Holder, path: string): { holder: Holder; key: string | number } {
  const steps = [...path.matchAll(/\[(\d+)\]|\["([^"]*)"\]|([^.[\]]+)/g)].map((match) =>
    match[1] === undefined ? (match[2] ?? match[3] ?? "") : Number(match[1]),
  );
  const key = steps.pop() ?? "";
  let holder = day;
  for (const step of steps) {
    if (!(step in holder)) throw new Error(`${path}: the good day has no ${step}`);
    holder = holder[step] as Holder;
  }
  return { holder, key };
}
