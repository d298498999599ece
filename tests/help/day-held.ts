/** Loads that are facts when planning starts: one fired and out, one still burning, both in the first oven. */
import type { DayFile } from "../../api/contract/day.ts";
import type { DayCalendar } from "./day-calendar.ts";
import type { CoatingInput } from "./day-coatings.ts";
import type { LineInput } from "./day-lines.ts";
import type { OvenInput } from "./day-ovens.ts";

export type HeldInput = NonNullable<DayFile["held"]>[number];

export interface Held {
  readonly held: HeldInput[];
  /** The same lines, those in held loads ready before them. */
  readonly pans: LineInput[];
}

/** Door closing, burner off, unloading and end, in minutes from the door's opening. */
const TIMES = { closes: 4, burnerOff: 48, unload: 66, done: 70 } as const;
const LOADS = [
  { id: "H1", state: "fired", opens: -125 },
  { id: "H2", state: "firing", opens: -45 },
] as const;

export interface HeldWish {
  readonly calendar: DayCalendar;
  readonly coatings: readonly CoatingInput[];
  readonly oven: OvenInput;
  readonly pans: readonly LineInput[];
}

/** The next coat of up to three pieces of a line in each load, one on the middle of each shelf. */
export function inventHeld({ calendar, coatings, oven, pans }: HeldWish): Held {
  if (oven.space.kind === "area") return { held: [], pans: [...pans] };
  const shelves = oven.space.shelves;
  const lines = pans.filter(({ priority }) => priority !== "rush").slice(0, LOADS.length);
  const held = lines.map((line, i): HeldInput => {
    const load = LOADS[i] ?? LOADS[0];
    const at = (minute: number): string => calendar.at(load.opens + minute);
    return {
      id: load.id,
      oven: oven.id,
      state: load.state,
      doorOpensAt: at(0),
      doorClosesAt: at(TIMES.closes),
      unloadAt: at(TIMES.unload),
      doneAt: at(TIMES.done),
      ...(oven.cycle.kind === "thermal"
        ? { setPointC: setPointC(line, coatings), burnerOffAt: at(TIMES.burnerOff) }
        : { setPointC: null, burnerOffAt: null }),
      pans: shelves.slice(0, line.quantity ?? 1).map((shelf, k) => ({
        id: line.id,
        item: k + 1,
        coat: line.nextCoat ?? 1,
        shelf: shelf.id,
        xCm: shelf.widthCm / 2,
        yCm: shelf.depthCm / 2,
        turned: false,
      })),
    };
  });
  const early = calendar.at(-240);
  const isHeld = new Set(lines.map(({ id }) => id));
  return { held, pans: pans.map((pan) => (isHeld.has(pan.id) ? { ...pan, readyAt: early, prepMinutes: 0 } : pan)) };
}

/** The middle of the coat's window. */
function setPointC(line: LineInput, coatings: readonly CoatingInput[]): number {
  const bake = coatings.find(({ id }) => id === line.coating)?.coats[(line.nextCoat ?? 1) - 1]?.bake;
  return Math.round(((bake?.metalLowC ?? 250) + (bake?.metalHighC ?? 300)) / 20) * 10;
}
