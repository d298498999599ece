/** When a pan out of the oven may be handled: lumped cooling in the room. */
import type { Body } from "./body.ts";

/**
 * Minutes until metal at `metalC` has cooled to `handleAtC` in a room at `ambientC`, with film coefficient
 * `coolFilmWPerM2K`. 0 where it is cool enough already; Infinity where the room is too warm or nothing takes the heat.
 * t = m·cp/(h·A)·ln((T − Tr)/(T_hand − Tr)), the lumped-capacitance formula (Incropera et al., chapter 5).
 */
export function minutesToHandle(
  body: Body,
  metalC: number,
  ambientC: number,
  handleAtC: number,
  coolFilmWPerM2K: number,
): number {
  if (metalC <= handleAtC) return 0;
  if (handleAtC <= ambientC) return Infinity;
  const tauMinutes = body.heatJPerK / (coolFilmWPerM2K * body.exchangeM2) / 60;
  return tauMinutes * Math.log((metalC - ambientC) / (handleAtC - ambientC));
}
