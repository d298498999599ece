/** Everything that can happen to a shop at a minute of its day, by name, as far as it can happen then. */
import type { DayFile } from "../../api/contract/day.ts";
import type { LoadNow } from "./audit-replan.ts";

type Said = Readonly<Record<string, unknown>>;

export interface Happening {
  readonly name: string;
  readonly said: readonly Said[];
}

export interface ShopNow {
  readonly day: DayFile;
  readonly loads: readonly LoadNow[];
  readonly now: number;
  /** From 0 up to 1. */
  readonly draw: () => number;
}

const at = (instant: string): number => Date.parse(instant);
const write = (millis: number): string => new Date(millis).toISOString().slice(0, 19) + "Z";

export function happenings(shop: ShopNow): Happening[] {
  const named = [...toLoads(shop), ...toPans(shop), ...toTheShop(shop)];
  return named.map(([name, ...said]) => ({ name, said }));
}

type Named = readonly [string, ...Said[]];

function toLoads({ loads, now, draw }: ShopNow): Named[] {
  const waiting = ({ state }: LoadNow): boolean => state === "planned" || state === "pinned";
  const firing = loads.find(
    ({ load, state }) =>
      !["interrupted", "dropped", "fired"].includes(state) && at(load.doorClosesAt) <= now && at(load.doneAt) > now,
  );
  const next = loads.find((entry) => waiting(entry) && at(entry.load.doorOpensAt) > now && entry.load.kind === "bake");
  const minutes = 1 + Math.floor(draw() * 40);
  const list: Named[] = [["nothing but time"]];
  if (firing !== undefined) {
    const load = firing.id;
    const { burnerOffAt } = firing.load;
    list.push(["load in the oven late", { kind: "load-late", load, minutes }]);
    list.push(["power cut in mid-bake", { kind: "load-interrupted", load, cause: "power cut" }]);
    list.push(["load out early", { kind: "load-out", load }]);
    list.push(["load reported closed just now", { kind: "load-closed", load }]);
    if (burnerOffAt !== null && at(burnerOffAt) > now) list.push(["burner off early", { kind: "burner-off", load }]);
  }
  if (next !== undefined) {
    list.push(["next load late", { kind: "load-late", load: next.id, minutes }]);
    list.push(["next load opened early", { kind: "load-opened", load: next.id }]);
    list.push(["next load pinned", { kind: "load-pinned", load: next.id }]);
    list.push([
      "next load pinned and let go",
      { kind: "load-pinned", load: next.id },
      { kind: "load-unpinned", load: next.id },
    ]);
    if (firing !== undefined)
      list.push([
        "next load pinned, the one before it late",
        { kind: "load-pinned", load: next.id },
        { kind: "load-late", load: firing.id, minutes },
      ]);
  }
  return list;
}

function toPans({ day, loads, now, draw }: ShopNow): Named[] {
  const inOven = new Set(
    loads
      .filter(({ load, state }) => state !== "fired" && at(load.doorOpensAt) <= now && at(load.doneAt) > now)
      .flatMap(({ load }) => load.pans.map(({ id }) => id)),
  );
  const free = day.pans.filter(({ id, quantity }) => !inOven.has(id) && (quantity ?? 1) === 1);
  const baked = loads
    .filter(({ load }) => at(load.doneAt) <= now)
    .flatMap(({ load }) => load.pans.map(({ id }) => id))
    .find((id) => !inOven.has(id));
  const pan = free[Math.floor(draw() * free.length)];
  const list: Named[] = [];
  if (baked !== undefined)
    list.push(["pan failed after its bake", { kind: "pan-failed", pan: baked, cause: "pinholes", stripMinutes: 40 }]);
  if (pan === undefined) return list;
  const cast = day.coatings.find(({ coats }) => coats[0]?.sprayMinutes === 0);
  const tough = free.find(({ metalLimitC }) => (metalLimitC ?? 450) >= 450);
  if (cast !== undefined && tough !== undefined)
    list.push([
      "casting sent back to be outgassed",
      { kind: "pan-failed", pan: tough.id, cause: "blisters", coating: cast.id },
    ]);
  list.push(["pan ready", { kind: "pan-ready", pan: pan.id }]);
  list.push(["pan held back", { kind: "pan-held", pan: pan.id, note: "a rivet is loose" }]);
  list.push(["pan withdrawn", { kind: "pan-withdrawn", pan: pan.id }]);
  list.push(["ticket handed over", { kind: "ticket-handed-over", ticket: pan.ticket ?? pan.id }]);
  return list;
}

function toTheShop({ day, now, draw }: ShopNow): Named[] {
  const oven = day.ovens[0]!;
  const shelves = oven.space.kind === "shelves" ? oven.space.shelves : [];
  const list: Named[] = [
    ["sprayer gone home", { kind: "sprayers-changed", sprayers: 0 }],
    ["another sprayer", { kind: "sprayers-changed", sprayers: 2 }],
    ["gas running low", { kind: "gas-left", unitsLeft: 1, maxDrawKW: 20 }],
    ["bottle changed", { kind: "bottle-changed", unitsLeft: 11, maxDrawKW: 80 }],
    [
      "oven lost until later",
      { kind: "oven-out", oven: oven.id, cause: "flame sensor", until: write(now + 5_400_000) },
    ],
  ];
  if (day.ovens.length > 1) list.push(["oven lost", { kind: "oven-out", oven: oven.id, cause: "burner" }]);
  const out = { kind: "oven-out", oven: oven.id, cause: "fan belt" };
  list.push(["oven lost and back", out, { kind: "oven-back", oven: oven.id }]);
  const shelf = shelves.at(-1)?.id;
  if (shelf !== undefined && shelves.length > 1)
    list.push([
      "shelf lost and back",
      { kind: "shelf-out", oven: oven.id, shelf, cause: "bent" },
      { kind: "shelf-back", oven: oven.id, shelf },
    ]);
  if (shelves.length > 1)
    list.push([
      "shelf lost",
      { kind: "shelf-out", oven: oven.id, shelf: shelves[Math.floor(draw() * shelves.length)]!.id },
    ]);
  return list;
}
