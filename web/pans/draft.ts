/** A pan as the entry form holds it, and the line of the day file it becomes. */
import type { DayFile } from "../../api/contract/day.ts";
import type { PanFile } from "../parts/day-lookup.ts";
import type { BodyPreset } from "../parts/pan-presets.ts";
import { bodiesFor, suggestedHeightCm, suggestedMassKg, suggestedStripMinutes } from "../parts/pan-presets.ts";

export type Outline = "round" | "handle" | "rectangle";

export interface Draft {
  readonly ticket: string;
  readonly id: string;
  readonly quantity: number | null;
  /** Of a preset. */
  readonly body: string;
  readonly material: string;
  readonly outline: Outline;
  readonly rimCm: number | null;
  /** Fixed handle beyond the rim. */
  readonly handleCm: number | null;
  readonly widthCm: number | null;
  readonly depthCm: number | null;
  readonly heightCm: number | null;
  readonly massKg: number | null;
  /** True: entered by hand; a suggestion does not overwrite it. */
  readonly isWeighed: boolean;
  readonly coating: string;
  readonly nextCoat: number;
  /** Shop's local time. */
  readonly readyAt: string;
  readonly prepMinutes: number | null;
  /** Shop's local time; empty: none. */
  readonly promisedAt: string;
  readonly isRush: boolean;
  readonly metalLimitC: number | null;
}

const usualRimCm = 28;
const usualHandleCm = 18;

export function newDraft(day: DayFile, readyAt: string): Draft {
  const body = bodiesFor(day.materials)[0];
  const blank: Draft = {
    ticket: "",
    id: "",
    quantity: 1,
    body: body?.id ?? "",
    material: body?.material ?? Object.keys(day.materials)[0] ?? "",
    outline: "round",
    rimCm: usualRimCm,
    handleCm: usualHandleCm,
    widthCm: null,
    depthCm: null,
    heightCm: null,
    massKg: null,
    isWeighed: false,
    coating: day.coatings[0]?.id ?? "",
    nextCoat: 1,
    readyAt,
    prepMinutes: null,
    promisedAt: "",
    isRush: false,
    metalLimitC: null,
  };
  return suggested(day, blank);
}

/** What a metal's usual body brings: a cast iron handle stays on and takes room. What was weighed was another body. */
export function ofBody({ id, material, handleCm }: BodyPreset): Partial<Draft> {
  const outline = handleCm > 0 ? ({ outline: "handle", handleCm } as const) : ({ outline: "round" } as const);
  return { body: id, material, massKg: null, isWeighed: false, ...outline };
}

/** The next pan of the same ticket: what was chosen stays, its name goes one letter on. */
export function nextDraft(day: DayFile, draft: Draft): Draft {
  return { ...draft, id: freeId(day, draft.ticket, [draft.id]), quantity: 1 };
}

/** With mass, height and stripping time as metal and size suggest them, save what was entered by hand. */
export function suggested(day: DayFile, draft: Draft): Draft {
  const body = bodiesFor(day.materials).find(({ id }) => id === draft.body);
  const rimCm = draft.outline === "rectangle" ? equalRim(draft) : draft.rimCm;
  if (rimCm === null) return draft;
  const massKg = body === undefined ? undefined : suggestedMassKg(body, rimCm);
  return {
    ...draft,
    heightCm: suggestedHeightCm(rimCm),
    prepMinutes: suggestedStripMinutes(rimCm),
    massKg: draft.isWeighed ? draft.massKg : (massKg ?? draft.massKg),
  };
}

/** The disc of a rectangle's area. */
function equalRim({ widthCm, depthCm }: Draft): number | null {
  return widthCm === null || depthCm === null ? null : Math.sqrt((4 * widthCm * depthCm) / Math.PI);
}

/** TICKET-A, TICKET-B, …: the first that no pan of the day bears. */
export function freeId(day: DayFile, ticket: string, more: readonly string[] = []): string {
  const taken = new Set([...day.pans.map(({ id }) => id), ...more]);
  if (ticket.trim() === "") return "";
  for (let n = 0; ; n++) {
    const letters = n < 26 ? String.fromCharCode(65 + n) : `A${n}`;
    const id = `${ticket.trim()}-${letters}`;
    if (!taken.has(id)) return id;
  }
}

/** A number that nobody entered is left out, for the service to ask for. */
export function panOfDraft(draft: Draft): PanFile {
  const ticket = draft.ticket.trim();
  return {
    id: draft.id.trim(),
    ...(ticket === "" ? {} : { ticket }),
    quantity: draft.quantity ?? 1,
    coating: draft.coating,
    ...(draft.nextCoat === 1 ? {} : { nextCoat: draft.nextCoat }),
    readyAt: draft.readyAt,
    prepMinutes: draft.prepMinutes ?? 0,
    promisedAt: draft.promisedAt === "" ? null : draft.promisedAt,
    priority: draft.isRush ? "rush" : "normal",
    shape: shapeOf(draft),
    heightCm: draft.heightCm ?? Number.NaN,
    massKg: draft.massKg ?? Number.NaN,
    material: draft.material,
    ...(draft.metalLimitC === null ? {} : { metalLimitC: draft.metalLimitC }),
  };
}

function shapeOf({ outline, rimCm, handleCm, widthCm, depthCm }: Draft): PanFile["shape"] {
  const figure = (cm: number | null): number => cm ?? Number.NaN;
  if (outline === "round") return { kind: "disc", diameterCm: figure(rimCm) };
  if (outline === "rectangle") return { kind: "rectangle", widthCm: figure(widthCm), depthCm: figure(depthCm) };
  return { kind: "rectangle", widthCm: figure(rimCm), depthCm: figure(rimCm) + figure(handleCm) };
}
