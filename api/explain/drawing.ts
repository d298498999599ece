/** The firing that takes both, or comes nearest to it, as the page draws it: two metals over their windows. */
import type { Day } from "../contract/day.ts";
import type { DrawnFiring } from "../contract/explaining.ts";
import type { Drawing } from "../../solver/index.ts";

type Metal = DrawnFiring["metals"][number];

/** The first bake asked about, and of the others the one that fits worst. */
export function drawnFiring(day: Day, drawing: Drawing): DrawnFiring {
  const worst = worstOf(drawing);
  const [one, other] = [metalOf(day, drawing, 0), metalOf(day, drawing, worst)];
  return {
    oven: day.ovens[drawing.oven]?.id ?? "",
    setPointC: drawing.decision.setPointC,
    burnerOffMinute: drawing.decision.burnerOffMinutes,
    unloadMinute: drawing.decision.unloadMinutes,
    chamberStartC: drawing.chamberStartC,
    metals: [one, other],
    points: drawing.points.map(({ minute, chamberC, metalC }) => ({
      minute,
      chamberC: tenths(chamberC),
      oneC: tenths(metalC[0] ?? Number.NaN),
      otherC: tenths(metalC[worst] ?? Number.NaN),
    })),
  };
}

/** Of all but the first: the one with least to spare, in the window it comes nearest to breaking. */
function worstOf({ members, bakes }: Drawing): number {
  const spare = members.map((member, index) => {
    const bake = bakes[index];
    if (bake === undefined || index === 0) return Infinity;
    const { soakLeastMinutes, soakMostMinutes } = member;
    return Math.min(
      bake.soakMinutes - soakLeastMinutes,
      soakMostMinutes - bake.aboveLowMinutes,
      member.highC - bake.peakC,
    );
  });
  return spare.indexOf(Math.min(...spare));
}

function metalOf(day: Day, drawing: Drawing, index: number): Metal {
  const { bakesOf, members, bakes, shelves } = drawing;
  const [asked, member, bake] = [bakesOf[index], members[index], bakes[index]];
  if (asked === undefined || member === undefined || bake === undefined) throw new Error("a drawing without its bakes");
  const oven = day.ovens[drawing.oven];
  const pan = day.pans[asked.line];
  const coat = day.coatings.find(({ id }) => id === pan?.coating)?.coats[asked.coat - 1];
  const shelf = shelves?.[index];
  const guardC = oven?.cycle.kind === "thermal" ? oven.cycle.guardC : 0;
  const shelfId = oven?.space.kind === "shelves" && shelf !== undefined ? oven.space.shelves[shelf]?.id : undefined;
  return {
    pan: pan?.id ?? "",
    coat: asked.coat,
    coatName: coat?.name ?? "",
    shelf: shelfId ?? null,
    lowestC: member.lowC,
    highestC: member.highC,
    guardC,
    soakLeastMinutes: coat?.bake.soakLeastMinutes ?? member.soakLeastMinutes,
    soakMostMinutes: member.soakMostMinutes,
    inWindowMinute: bake.inWindowMinutes === null ? null : tenths(bake.inWindowMinutes),
    soakMinutes: tenths(bake.soakMinutes),
    aboveLowMinutes: tenths(bake.aboveLowMinutes),
    peakC: tenths(bake.peakC),
    kept: bake.kept,
    why: bake.kept ? "" : whyMissed(member, bake, guardC),
  };
}

/** The worst first; within a hair of a limit it is the margin for an early or late burner-off that is missing. */
function whyMissed(member: Drawing["members"][number], bake: Drawing["bakes"][number], guardC: number): string {
  const { soakLeastMinutes, soakMostMinutes, highC, lowC } = member;
  if (bake.inWindowMinutes === null)
    return `Its metal only gets to ${Math.round(bake.peakC)} °C; it needs ${lowC + guardC} °C.`;
  if (bake.peakC > highC - guardC)
    return `Its metal gets to ${Math.round(bake.peakC)} °C; ${highC - guardC} °C is the most with the guard kept.`;
  if (bake.soakMinutes < soakLeastMinutes)
    return `It soaks ${bake.soakMinutes.toFixed(1)} min; it needs ${soakLeastMinutes} min.`;
  if (bake.aboveLowMinutes > soakMostMinutes)
    return `It stays in its window for ${bake.aboveLowMinutes.toFixed(1)} min; ${soakMostMinutes} min is the most.`;
  return "It keeps its window only where the burner goes off to the minute: no margin is left.";
}

function tenths(value: number): number {
  return Math.round(value * 10) / 10;
}
