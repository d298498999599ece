/** Held loads under the oven physics: facts as they happened, pinned loads as they must happen. */
import { chamberAfterIdle, chamberAfterVent } from "../heat/chamber.ts";
import { minutesToHandle } from "../heat/cooling.ts";
import { simulateFiring, windowsKept } from "../heat/firing.ts";
import type { Member } from "../heat/members.ts";
import type { DayModel } from "../day/day-model.ts";
import { needsCleanOven, soilsOven } from "../loads/mixing.ts";
import type { HeldLoad, ThermalCycle } from "../shop.ts";

/** What a held load leaves behind. */
export interface HeldOutcome {
  readonly gasKWh: number;
  readonly chamberStartC: number;
  readonly chamberAtDoneC: number;
  /** Per pan of the load: when it may be handled. */
  readonly cooled: readonly number[];
  /** False where a pinned load would break a window or the door limit from this chamber. */
  readonly sound: boolean;
}

/** Runs a held load in an oven that stands shut since `free` at `chamberC`. */
export function runHeld(day: DayModel, load: HeldLoad, free: number, chamberC: number): HeldOutcome {
  const { request } = day;
  const { cycle } = request.ovens[load.oven]!;
  if (cycle.kind === "fixed") {
    const gasKWh = (cycle.gasKW * (load.unload - load.doorCloses)) / 60;
    const cooled = load.pans.map(() => load.done);
    return { gasKWh, chamberStartC: chamberC, chamberAtDoneC: chamberC, cooled, sound: true };
  }
  const idleC = chamberAfterIdle(cycle, request.ambientC, chamberC, load.doorOpens - load.ventMinutes - free);
  const startC = load.ventMinutes === 0 ? idleC : chamberAfterVent(cycle, request.ambientC, idleC, load.ventMinutes);
  const members = heldMembers(day, load);
  const decision = {
    setPointC: load.setPointC!,
    burnerOffMinutes: load.burnerOff! - load.doorCloses,
    unloadMinutes: load.unload - load.doorCloses,
  };
  const used = load.kind === "bake" ? cycle : doorless(cycle);
  const firing = simulateFiring(used, request.ambientC, members, startC, decision);
  const cooled = load.pans.map((pan, index) => {
    const { metalAtUnloadC } = firing.members[index]!;
    const { handleAtC, coolFilmWPerM2K } = request.booth;
    const body = members[index]!.body;
    return load.done + minutesToHandle(body, metalAtUnloadC, request.ambientC, handleAtC, coolFilmWPerM2K);
  });
  const reaches = firing.reachedSetPoint;
  const windows =
    load.kind !== "bake" ||
    (startC <= cycle.doorLimitC &&
      firing.chamberAtUnloadC <= cycle.doorLimitC &&
      windowsKept(cycle, request.ambientC, members, startC, decision, -cycle.earlyMinutes) &&
      windowsKept(cycle, request.ambientC, members, startC, decision, cycle.slackMinutes));
  const { gasKWh, chamberAtDoneC } = firing;
  return {
    gasKWh,
    chamberStartC: startC,
    chamberAtDoneC,
    cooled,
    sound: load.state !== "pinned" || (reaches && windows),
  };
}

/** One member per pan of the load, in its order. */
export function heldMembers(day: DayModel, load: Pick<HeldLoad, "oven" | "pans">): Member[] {
  const { space } = day.request.ovens[load.oven]!;
  return load.pans.map((pan) => {
    const kind = heldKind(day, pan.line, pan.coat);
    const shelf = space.kind === "shelves" && pan.shelf !== null ? space.shelves[pan.shelf]! : undefined;
    const window = kind.coat.window!;
    return {
      count: 1,
      body: kind.body,
      offsetC: shelf?.offsetC ?? 0,
      lowC: window.metalLowC,
      highC: kind.highC,
      soakLeastMinutes: window.soakLeastMinutes,
      soakMostMinutes: window.soakMostMinutes,
    };
  });
}

/** The kind of bake that coat `coat` of a line is, due or not. */
export function heldKind(day: DayModel, line: number, coat: number): DayModel["kinds"][number] {
  return day.kinds[day.lineKinds[line]![coat - 1]!]!;
}

export function heldSoils(day: DayModel, load: HeldLoad): boolean {
  return soilsOven(day.request.mixing, heldGroups(day, load));
}

export function heldNeedsClean(day: DayModel, load: HeldLoad): boolean {
  return needsCleanOven(day.request.mixing, heldGroups(day, load));
}

function heldGroups(day: DayModel, load: HeldLoad): string[] {
  return load.pans.map((pan) => heldKind(day, pan.line, pan.coat).coat.mixGroup);
}

/** Empty firings open no door: the same oven without door work. */
function doorless(cycle: ThermalCycle): ThermalCycle {
  return { ...cycle, loadMinutes: 0, unloadMinutes: 0 };
}
