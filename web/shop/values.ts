/** Values inside stored settings, by their place in them. */

export type Place = readonly (string | number)[];

/** "cycle.burnerKW" as its keys; empty: the whole value. */
export function placeOf(path: string): Place {
  return path === "" ? [] : path.split(".").map((key) => (/^\d+$/.test(key) ? Number(key) : key));
}

export function valueAt(value: unknown, place: Place): unknown {
  return place.reduce<unknown>(
    (inside, key) =>
      typeof inside === "object" && inside !== null ? (inside as Record<string | number, unknown>)[key] : undefined,
    value,
  );
}

/** A copy with `next` at the place. */
export function withValue<T>(value: T, [key, ...rest]: Place, next: unknown): T {
  if (key === undefined) return next as T;
  const inside: unknown = valueAt(value, [key]);
  const changed = withValue(inside, rest, next);
  if (Array.isArray(value)) return value.map((one: unknown, i) => (i === key ? changed : one)) as T;
  return { ...value, [key]: changed };
}

/** As the service names places: "coats[0].bake.metalLowC". */
export function pathText(place: Place): string {
  return place.map((key, i) => (typeof key === "number" ? `[${key}]` : i === 0 ? key : `.${key}`)).join("");
}

/** Places of single values at which two values differ. */
export function differences(one: unknown, other: unknown, at: Place = []): Place[] {
  if (one === other) return [];
  if (!isNested(one) || !isNested(other)) return [at];
  const keys = new Set([...Object.keys(one), ...Object.keys(other)]);
  return [...keys].flatMap((key) => {
    const next = Array.isArray(one) ? Number(key) : key;
    return differences(valueAt(one, [next]), valueAt(other, [next]), [...at, next]);
  });
}

function isNested(value: unknown): value is object {
  return typeof value === "object" && value !== null;
}

/**
 * What two people made of the same value: mine where I changed it, theirs everywhere else. Lists of other lengths are
 * taken whole.
 */
export function merged<T>(base: T, mine: T, theirs: T): T {
  if (differences(base, mine).length === 0) return theirs;
  if (differences(base, theirs).length === 0 || !isNested(mine) || !isNested(theirs) || !isNested(base)) return mine;
  if (Array.isArray(mine)) {
    if (!Array.isArray(theirs) || !Array.isArray(base) || mine.length !== theirs.length || mine.length !== base.length)
      return mine;
    return mine.map((one: unknown, i) => merged<unknown>(base[i], one, theirs[i])) as T;
  }
  const keys = new Set([...Object.keys(mine), ...Object.keys(theirs)]);
  return Object.fromEntries(
    [...keys].map((key) => [key, merged(valueAt(base, [key]), valueAt(mine, [key]), valueAt(theirs, [key]))]),
  ) as T;
}
