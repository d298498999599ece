/** Bench and booth in time order: what one hand does in one go is one entry. Called by print-hands.ts and print-next.ts. */
import type { DayCoat } from "../contract/day.ts";
import { coatOf, gathered, piecesText } from "./plan-words.ts";
import type { Printed } from "./plan-words.ts";

export interface HandTask {
  readonly from: string;
  readonly to: string;
  readonly who: string;
  readonly what: string;
  /** The load that bakes it, where it is sprayed. */
  readonly load?: string;
  /** What goes out of the gun and what goes in, where the paint changes before it. */
  readonly change?: string;
}

/** Pieces of one line with no other work between them on the same bench. */
export function benchTasks({ day, plan }: Printed): HandTask[] {
  const byBench = plan.prep.toSorted((a, b) => a.bench - b.bench || order(a.from, b.from));
  const groups = gathered(byBench, (a, b) => a.bench === b.bench && a.id === b.id && a.to === b.from);
  return groups
    .map((group) => ({
      ...span(group),
      who: `bench ${group[0]?.bench}`,
      what: `prepare ${piecesText(day, group[0]?.id ?? "", itemsOf(group))}`,
    }))
    .toSorted((a, b) => order(a.from, b.from));
}

/** Pieces of one line and coat, for one load, with no other work between them by the same sprayer. */
export function boothTasks(printed: Printed): HandTask[] {
  const { day, plan } = printed;
  const loads = loadsByBake(printed);
  const tasks = plan.booth.map((task) => ({ ...task, load: loads.get(bakeKey(task)), paint: coatOf(day, task) }));
  const bySprayer = tasks.toSorted((a, b) => a.sprayer - b.sprayer || order(a.from, b.from));
  const groups = gathered(
    bySprayer,
    (a, b) => a.sprayer === b.sprayer && a.id === b.id && a.coat === b.coat && a.load === b.load && a.to === b.from,
  );
  return groups
    .flatMap((group, i) => {
      const first = group[0];
      if (!first) return [];
      const before = groups[i - 1]?.[0];
      const change = before?.sprayer === first.sprayer ? changeText(before.paint, first.paint) : undefined;
      return [
        {
          ...span(group),
          who: `sprayer ${first.sprayer}`,
          what: `spray ${first.paint.name}: ${piecesText(day, first.id, itemsOf(group))}`,
          ...(first.load === undefined ? {} : { load: first.load }),
          ...(change === undefined ? {} : { change }),
        },
      ];
    })
    .toSorted((a, b) => order(a.from, b.from));
}

function changeText(before: DayCoat, now: DayCoat): string | undefined {
  return before.paint === now.paint ? undefined : `${before.paint} out, ${now.paint} in`;
}

function loadsByBake({ plan }: Printed): Map<string, string> {
  return new Map(plan.loads.flatMap((load) => load.pans.map((pan) => [bakeKey(pan), load.id] as const)));
}

function bakeKey({ id, item, coat }: { readonly id: string; readonly item: number; readonly coat: number }): string {
  return JSON.stringify([id, item, coat]);
}

function span(group: readonly { readonly from: string; readonly to: string }[]): { from: string; to: string } {
  return { from: group[0]?.from ?? "", to: group.at(-1)?.to ?? "" };
}

function itemsOf(group: readonly { readonly item: number }[]): number[] {
  return group.map(({ item }) => item);
}

/** Instants carry offsets that may differ across a clock change, so their text does not sort. */
export function order(a: string, b: string): number {
  return Date.parse(a) - Date.parse(b);
}
