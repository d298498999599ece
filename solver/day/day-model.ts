/**
 * Stage 1 of plan.ts: the request laid out for planning. Pans one by one, the bakes each still needs, alike bakes
 * gathered into kinds, tickets with their promises. Indices throughout.
 */
import type { Body } from "../heat/body.ts";
import { bodyOf } from "../heat/body.ts";
import type { Coat, HeldLoad, HeldPan, PanLine, PlanRequest } from "../shop.ts";

export interface DayModel {
  readonly request: PlanRequest;
  readonly pans: readonly Pan[];
  /** Bakes that planning decides: due, and in no held load. */
  readonly bakes: readonly Bake[];
  readonly kinds: readonly BakeKind[];
  /** Per line and coat (from 0): its kind. */
  readonly lineKinds: readonly (readonly number[])[];
  readonly tickets: readonly Ticket[];
  /** `BakeKind.paint` runs below it. */
  readonly paintCount: number;
  /** End of the last staffed interval. */
  readonly horizonEnd: number;
}

export interface Pan {
  readonly line: number;
  /** From 1. */
  readonly item: number;
  readonly ticket: number;
  /** All coats due, in order, held or not. */
  readonly due: readonly DueCoat[];
}

/** One coat due of a pan: planned by us (`bake`) or standing in a held load (`held`). */
export interface DueCoat {
  readonly coat: number;
  readonly kind: number;
  readonly bake: number | null;
  readonly held: { readonly load: HeldLoad; readonly pan: HeldPan } | null;
}

export interface Bake {
  readonly pan: number;
  /** Position among the pan's due coats. */
  readonly step: number;
  readonly kind: number;
}

/** Bakes that are alike for oven and booth: same coat, same body, same footprint. */
export interface BakeKind {
  readonly line: PanLine;
  readonly coat: Coat;
  readonly body: Body;
  readonly solventMl: number;
  /** Footprint as area-spaced ovens count it, dm². */
  readonly areaDm2: number;
  readonly paint: number;
  /** min(metalHighC, metalLimitC); Infinity without a cure window. */
  readonly highC: number;
  /** Ovens it may go into at all. */
  readonly ovens: readonly number[];
}

export interface Ticket {
  readonly name: string;
  readonly promised: number | null;
  readonly pans: readonly number[];
  /** Money per hour late: the sum over its pans. */
  readonly latePerHour: number;
}

export function dayModel(request: PlanRequest): DayModel {
  const paints: string[] = [];
  const kinds: BakeKind[] = [];
  const kindIndex = new Map<string, number>();
  const pans: Pan[] = [];
  const bakes: Bake[] = [];
  const heldAt = heldByCoat(request);
  const allLineKinds: number[][] = [];
  const ticketNames: string[] = [];
  const ticketPans: number[][] = [];

  request.lines.forEach((line, lineIndex) => {
    const coating = request.coatings[line.coating]!;
    const lineKinds = coating.coats.map((coat) => kindOf(request, line, coat, { kinds, kindIndex, paints }));
    allLineKinds.push(lineKinds);
    for (let item = 1; item <= line.quantity; item++) {
      const pan = pans.length;
      const due: DueCoat[] = [];
      for (let coat = line.nextCoat; coat <= coating.coats.length; coat++) {
        const held = heldAt.get(`${lineIndex}/${item}/${coat}`) ?? null;
        const kind = lineKinds[coat - 1]!;
        if (held === null) bakes.push({ pan, step: due.length, kind });
        due.push({ coat, kind, bake: held === null ? bakes.length - 1 : null, held });
      }
      const ticket = indexIn(ticketNames, line.ticket);
      (ticketPans[ticket] ??= []).push(pan);
      pans.push({ line: lineIndex, item, ticket, due });
    }
  });

  return {
    request,
    pans,
    bakes,
    kinds,
    lineKinds: allLineKinds,
    tickets: ticketPans.map((members, ticket) => ({
      name: ticketNames[ticket]!,
      promised: request.lines[pans[members[0]!]!.line]!.promisedMinute,
      pans: members,
      latePerHour: members.reduce((sum, pan) => sum + request.lines[pans[pan]!.line]!.latePerHour, 0),
    })),
    paintCount: paints.length,
    horizonEnd: request.staffed.at(-1)!.to,
  };
}

function heldByCoat(request: PlanRequest): Map<string, { load: HeldLoad; pan: HeldPan }> {
  const held = new Map<string, { load: HeldLoad; pan: HeldPan }>();
  for (const load of request.held)
    for (const pan of load.pans) held.set(`${pan.line}/${pan.item}/${pan.coat}`, { load, pan });
  return held;
}

interface Registers {
  readonly kinds: BakeKind[];
  readonly kindIndex: Map<string, number>;
  readonly paints: string[];
}

function kindOf(request: PlanRequest, line: PanLine, coat: Coat, registers: Registers): number {
  const { shape, heightCm, massKg, specificHeatJPerKgK, metalLimitC } = line;
  const coatAt = request.coatings[line.coating]!.coats.indexOf(coat);
  const key = JSON.stringify([shape, heightCm, massKg, specificHeatJPerKgK, metalLimitC, line.coating, coatAt]);
  const known = registers.kindIndex.get(key);
  if (known !== undefined) return known;
  const body = bodyOf(line);
  registers.kinds.push({
    line,
    coat,
    body,
    solventMl: coat.solventMlPerM2 * body.coatedM2,
    areaDm2: areaDm2(line),
    paint: indexIn(registers.paints, coat.paint),
    highC: coat.window === null ? Infinity : Math.min(coat.window.metalHighC, metalLimitC),
    ovens: ovensFor(request, line, coat),
  });
  registers.kindIndex.set(key, registers.kinds.length - 1);
  return registers.kinds.length - 1;
}

function ovensFor(request: PlanRequest, line: PanLine, coat: Coat): number[] {
  return request.ovens.flatMap((oven, index) => {
    if (coat.ovens !== null && !coat.ovens.includes(index)) return [];
    if (oven.cycle.kind === "fixed" ? coat.cycleMinutes === null : coat.window === null) return [];
    if (oven.space.kind === "shelves" && line.shape.kind === "area") return [];
    return [index];
  });
}

function areaDm2({ shape }: PanLine): number {
  if (shape.kind === "disc") return shape.diameterCm ** 2 / 100;
  return shape.kind === "rectangle" ? (shape.widthCm * shape.depthCm) / 100 : shape.dm2;
}

function indexIn(list: string[], entry: string): number {
  const found = list.indexOf(entry);
  if (found >= 0) return found;
  list.push(entry);
  return list.length - 1;
}
