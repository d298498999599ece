/** A pan that can never be baked is an error naming why: too large, tall, heavy, wet or tender for every place. */
import type { DayCoat, DayPan } from "../../contract/day.ts";
import type { Numbers } from "../../contract/problem-words.ts";
import type { Path } from "../../contract/problem.ts";
import { dueCoats } from "./check.ts";
import type { Check, Report, Shop } from "./check.ts";
import { bearsKg, outline, ovensFor, solventMl, spotsOf, takesHeat, takesHeight, takesSize } from "./spots.ts";
import type { Spot } from "./spots.ts";

type Finding = readonly [path: Path, code: Parameters<Report["problem"]>[1], seen: unknown, numbers?: Numbers];

export const panFitCheck: Check = {
  needs: ["coatings", "ovens"],
  find: (shop, report) => {
    const known = new Map<DayCoat, readonly Spot[]>();
    const spotsFor = (coat: DayCoat): readonly Spot[] => {
      const spots = known.get(coat) ?? spotsOf(ovensFor(shop.day, coat));
      known.set(coat, spots);
      return spots;
    };
    shop.day.pans.forEach((pan, i) => {
      for (const finding of panFindings(shop, pan, ["pans", i], spotsFor)) report.problem(...finding);
    });
  },
};

/** Of the first coat that meets a wall; coats that no oven bakes at all are another check's. */
function panFindings(
  shop: Shop,
  pan: DayPan,
  path: Path,
  spotsFor: (coat: DayCoat) => readonly Spot[],
): readonly Finding[] {
  for (const coat of dueCoats(shop.day, pan)) {
    const spots = spotsFor(coat);
    const findings = spots.length === 0 ? [] : coatFindings(shop, pan, coat, spots, path);
    if (findings.length > 0) return findings;
  }
  return [];
}

function coatFindings(shop: Shop, pan: DayPan, coat: DayCoat, spots: readonly Spot[], path: Path): Finding[] {
  if (pan.shape.kind === "area" && spots.every(({ shelf }) => shelf)) {
    return [[[...path, "shape", "kind"], "area-shape-needs-area-oven", "area"]];
  }
  const { ambientC } = shop.day;
  const takes = (spot: Spot): boolean =>
    takesSize(spot, pan) &&
    takesHeight(spot, pan.heightCm) &&
    pan.massKg <= bearsKg(spot) &&
    solventMl(pan, coat) <= (spot.oven.maxSolventMl ?? Infinity) &&
    takesHeat(spot, pan, coat, ambientC);
  // A place that takes it is soon found; only where there is none is it asked what all of them lack.
  if (spots.some(takes) && limitFinding(pan, coat, spots, path) === undefined) return [];
  const size = [sizeFinding(pan, spots, path), heightFinding(pan, spots, path)].filter(
    (finding) => finding !== undefined,
  );
  const hotEnough = spots.some((spot) => takesHeat(spot, { ...pan, metalLimitC: null }, coat, ambientC));
  const single = [
    ...size,
    weightFinding(pan, spots, path),
    size.length > 0 ? undefined : solventFinding(pan, coat, spots, path),
    hotEnough ? limitFinding(pan, coat, spots, path) : undefined,
  ].filter((finding) => finding !== undefined);
  if (single.length > 0 || !hotEnough) return single;
  return spots.some(takes) ? [] : [[path, "pan-fits-nowhere", pan.id, { coat: coat.name }]];
}

function sizeFinding(pan: DayPan, spots: readonly Spot[], path: Path): Finding | undefined {
  if (spots.some((spot) => takesSize(spot, pan))) return undefined;
  const size = outline(pan);
  const slip = spots.some((spot) => takesSize(spot, pan, 0.1)) ? millimetreSlip(pan) : undefined;
  const numbers = { size: sizeText(pan), room: largestRoom(spots), slip };
  if (pan.shape.kind === "area") return [[...path, "shape", "dm2"], "pan-too-large", pan.shape.dm2, numbers];
  if (pan.shape.kind === "disc")
    return [[...path, "shape", "diameterCm"], "pan-too-large", pan.shape.diameterCm, numbers];
  const longer = size && size.depthCm > size.widthCm ? "depthCm" : "widthCm";
  return [[...path, "shape", longer], "pan-too-large", pan.shape[longer], numbers];
}

function millimetreSlip(pan: DayPan): string | undefined {
  const size = outline(pan);
  if (!size || Math.min(size.widthCm, size.depthCm) < 80) return undefined;
  return `Millimetres? ${size.widthCm} mm is ${round(size.widthCm / 10)} cm.`;
}

export function sizeText(pan: DayPan): string {
  if (pan.shape.kind === "area") return `${pan.shape.dm2} dm²`;
  if (pan.shape.kind === "disc") return `a disc of ${pan.shape.diameterCm} cm`;
  return `${pan.shape.widthCm} × ${pan.shape.depthCm} cm`;
}

function largestRoom(spots: readonly Spot[]): string {
  const rooms = spots.map(({ shelf, gapCm, oven }) => {
    if (!shelf) return { area: Infinity, words: oven.space.kind === "area" ? `${oven.space.dm2} dm²` : "" };
    const [w, d] = [shelf.widthCm - 2 * gapCm, shelf.depthCm - 2 * gapCm];
    return { area: w * d, words: `${round(w)} × ${round(d)} cm` };
  });
  return rooms.toSorted((a, b) => b.area - a.area)[0]?.words ?? "";
}

function heightFinding(pan: DayPan, spots: readonly Spot[], path: Path): Finding | undefined {
  const room = Math.max(...spots.map(({ shelf }) => shelf?.clearHeightCm ?? Infinity));
  if (pan.heightCm <= room) return undefined;
  const fits = pan.heightCm / 10 <= room && pan.heightCm >= 20;
  const slip = fits ? `Millimetres? ${pan.heightCm} mm is ${round(pan.heightCm / 10)} cm.` : undefined;
  return [[...path, "heightCm"], "pan-too-tall", pan.heightCm, { room, slip }];
}

function weightFinding(pan: DayPan, spots: readonly Spot[], path: Path): Finding | undefined {
  const room = Math.max(...spots.map(bearsKg));
  if (pan.massKg <= room) return undefined;
  const kg = pan.massKg / 1000;
  const slip = kg >= 0.03 && kg <= room ? `If grams, this is ${round(kg)} kg.` : undefined;
  return [[...path, "massKg"], "pan-too-heavy", pan.massKg, { room, slip }];
}

function solventFinding(pan: DayPan, coat: DayCoat, spots: readonly Spot[], path: Path): Finding | undefined {
  const ml = solventMl(pan, coat);
  const room = Math.max(...spots.map(({ oven }) => oven.maxSolventMl ?? Infinity));
  if (ml <= room) return undefined;
  return [path, "pan-too-much-solvent", pan.id, { ml: round(ml), room, coat: coat.name }];
}

/** The piece is spoiled before the coat is cured. Handles of phenolic stand about 180 °C: common practice, no source. */
function limitFinding(pan: DayPan, coat: DayCoat, spots: readonly Spot[], path: Path): Finding | undefined {
  const low = coat.bake.metalLowC;
  if (pan.metalLimitC === null || low === null) return undefined;
  const guards = spots.map(({ oven }) => (oven.cycle.kind === "thermal" ? oven.cycle.guardC : 0));
  const guard = Math.min(...guards);
  const needed = low + 2 * guard;
  if (pan.metalLimitC > needed) return undefined;
  const handle = "Take the handle or knob off and raise the limit, choose another coat, or refuse the piece.";
  const slip = pan.metalLimitC < 200 && low > 200 ? handle : "Choose another coat, or refuse the piece.";
  return [
    [...path, "metalLimitC"],
    "coat-hotter-than-piece",
    pan.metalLimitC,
    { coat: coat.name, low, guard, needed, slip },
  ];
}

function round(x: number): number {
  return Math.round(x * 100) / 100;
}
