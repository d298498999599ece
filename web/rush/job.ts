/** A job at the counter, before it is taken: what the three questions ask, and the pans it becomes. */
import type { DayFile } from "../../api/contract/day.ts";
import { bodiesFor, suggestedHeightCm, suggestedMassKg, suggestedStripMinutes } from "../parts/pan-presets.ts";
import type { BodyPreset } from "../parts/pan-presets.ts";

/** Alike pans of the job. */
export interface JobLine {
  readonly body: BodyPreset;
  readonly rimCm: number;
  readonly pieces: number;
  /** Null: no preset knows it, and nobody has weighed one yet. */
  readonly massKg: number | null;
  readonly heightCm: number;
  /** A handle that stays on; 0: none. */
  readonly handleCm: number;
  readonly benchMinutes: number;
}

export interface Job {
  readonly ticket: string;
  readonly lines: readonly JobLine[];
  readonly coating: string;
  /** Shop's local time as the input gives it; empty: as soon as it can be. */
  readonly wish: string;
}

const usualRimCm = 28;
const noBody: BodyPreset = { id: "", material: "", masses: {}, handleCm: 0 };

export function newJob(day: DayFile): Job {
  return { ticket: freeTicket(day), lines: [newLine(day)], coating: day.coatings[0]?.id ?? "", wish: "" };
}

export function newLine(day: DayFile): JobLine {
  return lineOf(bodiesFor(day.materials)[0] ?? noBody, usualRimCm, 1);
}

/** With everything that metal and rim suggest. */
export function lineOf(body: BodyPreset, rimCm: number, pieces: number): JobLine {
  return {
    body,
    rimCm,
    pieces,
    massKg: suggestedMassKg(body, rimCm) ?? null,
    heightCm: suggestedHeightCm(rimCm),
    handleCm: body.handleCm,
    benchMinutes: suggestedStripMinutes(rimCm),
  };
}

/** The first of RUSH-1, RUSH-2, … that no pan and no ticket of the day bears. */
function freeTicket(day: DayFile): string {
  const taken = day.pans.flatMap(({ id, ticket }) => [id, ticket ?? id]);
  for (let n = 1; ; n++) {
    const name = `RUSH-${n}`;
    if (!taken.some((one) => one === name || one.startsWith(`${name}-`))) return name;
  }
}

/** Lines of a day file. A mass that nobody entered is left out, for the service to ask for. */
export function pansOf({ ticket, lines, coating, wish }: Job, day: DayFile): DayFile["pans"] {
  return lines.map((line, i) => ({
    id: `${ticket.trim()}-${String.fromCharCode(65 + i)}`,
    ticket: ticket.trim(),
    quantity: line.pieces,
    coating,
    readyAt: day.planFrom,
    prepMinutes: line.benchMinutes,
    promisedAt: wish === "" ? null : wish,
    priority: "rush",
    shape: shapeOf(line),
    heightCm: line.heightCm,
    massKg: line.massKg ?? Number.NaN,
    material: line.body.material,
  }));
}

/** A handle that stays on makes the outline a rectangle. */
function shapeOf({ rimCm, handleCm }: JobLine): DayFile["pans"][number]["shape"] {
  return handleCm > 0
    ? { kind: "rectangle", widthCm: rimCm, depthCm: rimCm + handleCm }
    : { kind: "disc", diameterCm: rimCm };
}
