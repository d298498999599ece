/** In which order a habit bakes the coats of the plan, and how the walk by ready time fills ovens that count areas only. */
import type { DayView } from "./day-view.ts";
import { solventMl } from "./day-view.ts";
import type { PlanBake } from "./habits.ts";
import { squareDm2 } from "./space.ts";

/** Pan by pan in ticket order, coat by coat: tickets as the day lists them, then lines, items and coats. */
export function coatedOrder(day: DayView, bakes: readonly PlanBake[]): PlanBake[] {
  const ticketAt = new Map<string, number>();
  const lineAt = new Map<string, number>();
  for (const [index, { ticket, id }] of day.day.pans.entries()) {
    if (!ticketAt.has(ticket)) ticketAt.set(ticket, index);
    lineAt.set(id, index);
  }
  const at = (one: PlanBake): readonly number[] => [
    ticketAt.get(one.line.pan.ticket) ?? 0,
    lineAt.get(one.line.pan.id) ?? 0,
    one.item,
    one.coatNumber,
  ];
  return bakes.toSorted((a, b) => compare(at(a), at(b)));
}

/** Pans by ready time, then ticket; first coats first, then the next. */
export function readyOrder(bakes: readonly PlanBake[]): PlanBake[] {
  return bakes.toSorted(
    (a, b) =>
      a.coatNumber - b.coatNumber ||
      a.line.readyMinute - b.line.readyMinute ||
      (a.line.pan.ticket < b.line.pan.ticket ? -1 : a.line.pan.ticket > b.line.pan.ticket ? 1 : 0),
  );
}

function compare(a: readonly number[], b: readonly number[]): number {
  for (const [index, value] of a.entries()) {
    const other = b[index] ?? 0;
    if (value !== other) return value - other;
  }
  return 0;
}

/** Bakes that the walk may put into one firing. */
export function coatKey(bake: PlanBake): string {
  return `${bake.oven.id}|${bake.line.pan.coating}|${bake.coatNumber}`;
}

/** Fires the walk where room is a sum of areas, mass and solvent. All bakes of one coat take the same cycle. */
export function areaWalk(walk: readonly PlanBake[]): { readonly firings: number; readonly kWh: number } {
  let firings = 0;
  let kWh = 0;
  let open = { key: "", dm2: 0, massKg: 0, solventMl: 0 };
  for (const bake of walk) {
    const { line, coat, oven } = bake;
    const own = { dm2: squareDm2(line), massKg: line.pan.massKg, solventMl: solventMl(line, coat) };
    const key = coatKey(bake);
    const joined = {
      key,
      dm2: open.dm2 + own.dm2,
      massKg: open.massKg + own.massKg,
      solventMl: open.solventMl + own.solventMl,
    };
    const fits = (sum: number, limit: number | null): boolean => sum <= (limit ?? Infinity) + 1e-9;
    const room =
      oven.space.kind === "area" &&
      fits(joined.dm2, oven.space.dm2) &&
      fits(joined.massKg, oven.maxLoadKg) &&
      fits(joined.solventMl, oven.maxSolventMl);
    if (open.key === key && room) {
      open = joined;
      continue;
    }
    open = { key, ...own };
    firings += 1;
    if (oven.cycle.kind === "fixed") kWh += (oven.cycle.gasKW * (coat.bake.cycleMinutes ?? 0)) / 60;
  }
  return { firings, kWh };
}
