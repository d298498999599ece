/** The row at door closing: the chamber has fallen, and the pans have warmed in it for the last half of loading. */
import { chamberAfterDoor } from "./chamber.ts";
import type { LoadHeat } from "./load-heat.ts";
import { aboveLowAt, burntAt, firstInAt, peakAt, soakAt } from "./row.ts";

export function writeClosingRow(heat: LoadHeat, chamberAtOpenC: number, rows: Float64Array, at: number): void {
  const { cycle, ambientC, members } = heat;
  const n = members.length;
  const half = cycle.loadMinutes / 2;
  const chamberIn = chamberAfterDoor(cycle, ambientC, chamberAtOpenC, half) - ambientC;
  rows[at] = chamberAfterDoor(cycle, ambientC, chamberAtOpenC, cycle.loadMinutes) - ambientC;
  for (let member = 0; member < n; member++) {
    const rate = heat.burn.network.memberRate[member]!;
    const metalIn = -members[member]!.offsetC;
    const node = metalIn * Math.exp(-rate * half) + rate * chamberIn * fallingAir(rate, 1 / cycle.doorTauMinutes, half);
    rows[at + 1 + member] = node;
    rows[aboveLowAt(at, n, member)] = 0;
    rows[soakAt(at, n, member)] = 0;
    rows[peakAt(at, n, member)] = node;
    rows[firstInAt(at, n, member)] = node >= heat.guardedNode[member]! ? 0 : Infinity;
  }
  rows[burntAt(at, n)] = 0;
}

/** ∫ exp(−fall·s)·exp(−rate·(minutes − s)) ds over 0…minutes, also where both rates are equal. */
function fallingAir(rate: number, fall: number, minutes: number): number {
  if (minutes === 0) return 0;
  const apart = (rate - fall) * minutes;
  if (Math.abs(apart) > 0.1) return (Math.exp(-fall * minutes) - Math.exp(-rate * minutes)) / (rate - fall);
  const ratio = apart === 0 ? 1 : Math.expm1(apart) / apart;
  return minutes * Math.exp(-rate * minutes) * ratio;
}
