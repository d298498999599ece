/** Invented tickets and their lines: what came in, in which state, ready when and promised for when. */
import type { DayFile } from "../../api/contract/day.ts";
import type { DayCalendar } from "./day-calendar.ts";
import type { Chance } from "./day-chance.ts";
import type { CoatingInput } from "./day-coatings.ts";
import { inventPiece } from "./day-pieces.ts";

export type LineInput = DayFile["pans"][number];

export interface LinesWish {
  /** Pieces in all. */
  readonly pans: number;
  readonly pace: "calm" | "overloaded";
  readonly calendar: DayCalendar;
  readonly coatings: readonly CoatingInput[];
  readonly ovens: number;
  /** 0: no limit, as in the file. */
  readonly benches: number;
  readonly sprayers: number;
}

/** What one due coat takes in an unhurried shop, spraying to inspection, minutes. */
const MINUTES_A_COAT = 75;

/** What hands and oven need for one pan, on average of the pieces below: minutes on the bench, in the booth, of a load. */
const MINUTES_A_PAN = { bench: 7, booth: 10, oven: 11 } as const;

/** Minutes of work until all of it is done, by whoever has most to do. */
function queueMinutes({ pans, ovens, benches, sprayers }: LinesWish): number {
  const bench = benches === 0 ? 0 : MINUTES_A_PAN.bench / benches;
  const booth = sprayers === 0 ? 0 : MINUTES_A_PAN.booth / sprayers;
  return pans * Math.max(bench, booth, MINUTES_A_PAN.oven / ovens);
}

interface Drawn {
  readonly line: Omit<LineInput, "readyAt" | "promisedAt">;
  /** Minutes of work from `planFrom`. */
  readonly ready: number;
  readonly chainMinutes: number;
}

export function inventLines(chance: Chance, wish: LinesWish): LineInput[] {
  const lines: LineInput[] = [];
  let left = wish.pans;
  for (let ticket = 101; left > 0; ticket++) {
    const rush = chance.happens(0.08);
    const drawn: Drawn[] = [];
    const count = chance.byShare([
      [5, 1],
      [3, 2],
      [2, 3],
    ]);
    for (let i = 0; i < count && left > 0; i++) {
      const quantity = Math.min(
        left,
        chance.byShare([
          [8, 1],
          [5, 2],
          [3, 3],
          [2, 4],
          [1, 5],
          [1, 6],
        ]),
      );
      left -= quantity;
      drawn.push(inventLine(chance, wish, { ticket: `T-${ticket}`, letter: "ABC".charAt(i), quantity, rush }));
    }
    lines.push(...promised(chance, wish, drawn, rush));
  }
  return lines;
}

interface Place {
  readonly ticket: string;
  readonly letter: string;
  readonly quantity: number;
  readonly rush: boolean;
}

function inventLine(chance: Chance, wish: LinesWish, { ticket, letter, quantity, rush }: Place): Drawn {
  const { coatings: suits, ...piece } = inventPiece(chance);
  const id = chance.oneOf(suits);
  const coats = wish.coatings.find((coating) => coating.id === id)?.coats ?? [];
  const nextCoat = coats.length > 1 && chance.happens(0.25) ? chance.whole(2, coats.length) : 1;
  const sprayed = (coats[nextCoat - 1]?.sprayMinutes ?? 0) > 0 && chance.happens(0.1);
  const prepMinutes = nextCoat === 1 && !sprayed && chance.happens(0.6) ? chance.whole(8, 22) : 0;
  const line = {
    id: `${ticket}-${letter}`,
    ticket,
    quantity,
    coating: id,
    nextCoat,
    sprayed,
    prepMinutes,
    priority: rush ? ("rush" as const) : ("normal" as const),
    ...piece,
    ...(id === "sol-gel" && chance.happens(0.5)
      ? { metalLimitC: 285 }
      : { metalLimitC: chance.oneOf([450, 460, null]) }),
    ...(chance.happens(0.1) ? { latePerHour: chance.oneOf([3, 12]) } : {}),
    ...(chance.happens(0.1) ? { leftOverCost: chance.oneOf([25, 90]) } : {}),
  };
  const chainMinutes = prepMinutes + (coats.length - nextCoat + 1) * MINUTES_A_COAT;
  return { line, ready: sprayed ? chance.whole(-20, 20) : readyMinute(chance, wish), chainMinutes };
}

function readyMinute(chance: Chance, wish: LinesWish): number {
  if (chance.happens(0.45)) return chance.whole(-90, 0);
  return chance.whole(0, wish.pace === "calm" ? Math.round(Math.max(180, 0.6 * queueMinutes(wish))) : 120);
}

/** One promise a ticket, from its slowest line on: calm shops leave room for what else there is to do. */
function promised(chance: Chance, wish: LinesWish, drawn: readonly Drawn[], rush: boolean): LineInput[] {
  const { pace, calendar } = wish;
  const need = Math.max(...drawn.map(({ ready, chainMinutes }) => Math.max(ready, 0) + chainMinutes));
  const ready = Math.max(...drawn.map((one) => one.ready));
  const queue = queueMinutes(wish);
  const room =
    pace === "calm"
      ? chance.whole(60, 240) + chance.whole(Math.round(0.4 * queue), Math.round(1.2 * queue))
      : chance.whole(-60, 100) + chance.whole(0, Math.round(0.6 * queue));
  const minute = Math.max(ready + 1, need + (rush ? Math.min(room, 90) : room));
  const open = !rush && chance.happens(0.12);
  return drawn.map(({ line, ready: own }) => ({
    ...line,
    readyAt: calendar.at(calendar.worked(own)),
    promisedAt: open ? null : calendar.at(calendar.worked(minute)),
  }));
}
