/** The day as the checker reads it: instants in minutes since the epoch, ids resolved, areas and heat worked out afresh. */
import type { Day, DayCoat, DayOven, DayPan } from "../contract/day.ts";
import type { Clock } from "./clock.ts";
import { clockOf } from "./clock.ts";

interface Interval {
  readonly from: number;
  readonly to: number;
}

/** One line of the day file; every piece of it is alike. */
export interface Line {
  readonly pan: DayPan;
  readonly coats: readonly DayCoat[];
  readonly readyMinute: number;
  /** Null where nothing was promised. */
  readonly promisedMinute: number | null;
  /** Money per piece and hour late. */
  readonly latePerHour: number;
  /** Money per piece left over, before the share of its coats. */
  readonly leftOverCost: number;
  /** Inside of base and wall, m²; a shape given as an area counts as a base without a wall. */
  readonly coatedM2: number;
  /** m·cp, J/K. */
  readonly heatJPerK: number;
}

export interface Piece {
  readonly key: string;
  readonly line: Line;
  /** From 1. */
  readonly item: number;
}

export interface DayView {
  readonly day: Day;
  readonly clock: Clock;
  readonly planFrom: number;
  /** In order of time. */
  readonly staffed: readonly Interval[];
  /** The last staffed minute. */
  readonly horizon: number;
  readonly nextOpen: number;
  readonly ovens: ReadonlyMap<string, DayOven>;
  readonly lines: ReadonlyMap<string, Line>;
  /** In the order of the day file, items ascending. */
  readonly pieces: readonly Piece[];
  readonly stepSeconds: number;
}

const nextOpenDefaultMinutes = 14 * 60;

export function pieceKey(id: string, item: number): string {
  return `${id}#${item}`;
}

export function viewDay(day: Day, stepSeconds: number): DayView {
  const clock = clockOf(day.timeZone);
  const staffed = day.staffed
    .map(({ from, to }) => ({ from: clock.minutes(from), to: clock.minutes(to) }))
    .sort((a, b) => a.from - b.from);
  const horizon = Math.max(...staffed.map(({ to }) => to));
  const lines = new Map(day.pans.map((pan) => [pan.id, viewLine(day, pan, clock)]));
  return {
    day,
    clock,
    planFrom: clock.minutes(day.planFrom),
    staffed,
    horizon,
    nextOpen: day.nextOpen === null ? horizon + nextOpenDefaultMinutes : clock.minutes(day.nextOpen),
    ovens: new Map(day.ovens.map((oven) => [oven.id, oven])),
    lines,
    pieces: [...lines.values()].flatMap((line) =>
      Array.from({ length: line.pan.quantity }, (_, i) => ({ key: pieceKey(line.pan.id, i + 1), line, item: i + 1 })),
    ),
    stepSeconds,
  };
}

function viewLine(day: Day, pan: DayPan, clock: Clock): Line {
  const { prices } = day;
  const byPriority = pan.priority === "rush" ? prices.rushLatePerPanHour : prices.latePerPanHour;
  return {
    pan,
    coats: day.coatings.find(({ id }) => id === pan.coating)?.coats ?? [],
    readyMinute: clock.minutes(pan.readyAt),
    promisedMinute: pan.promisedAt === null ? null : clock.minutes(pan.promisedAt),
    latePerHour: pan.latePerHour ?? byPriority,
    leftOverCost: pan.leftOverCost ?? prices.leftOverPerPan,
    coatedM2: coatedCm2(pan) / 1e4,
    heatJPerK: pan.massKg * (day.materials[pan.material]?.specificHeatJPerKgK ?? Number.NaN),
  };
}

/** Base plus wall: π/4·D² + π·D·h for a disc, w·d + 2(w + d)·h for a rectangle. */
function coatedCm2({ shape, heightCm }: DayPan): number {
  switch (shape.kind) {
    case "disc":
      return (Math.PI * shape.diameterCm * shape.diameterCm) / 4 + Math.PI * shape.diameterCm * heightCm;
    case "rectangle":
      return shape.widthCm * shape.depthCm + 2 * (shape.widthCm + shape.depthCm) * heightCm;
    case "area":
      return shape.dm2 * 100;
  }
}

/** The coat counted from 1; undefined where the coating has no such coat. */
export function coatOf(line: Line, coat: number): DayCoat | undefined {
  return line.coats[coat - 1];
}

/** Solvent of one pan in one coat, ml. */
export function solventMl(line: Line, coat: DayCoat): number {
  return coat.solventMlPerM2 * line.coatedM2;
}

/** How many coats of the line are still due. */
export function coatsDue(line: Line): number {
  return Math.max(0, line.coats.length - line.pan.nextCoat + 1);
}

/** Minutes of staffed time between two instants. */
export function staffedMinutes(view: DayView, from: number, to: number): number {
  return view.staffed.reduce((sum, on) => sum + Math.max(0, Math.min(on.to, to) - Math.max(on.from, from)), 0);
}

/** True where one staffed interval holds the whole stretch. */
export function staffedThroughout(view: DayView, from: number, to: number): boolean {
  const exact = 1e-6;
  return view.staffed.some((on) => on.from <= from + exact && to <= on.to + exact);
}
