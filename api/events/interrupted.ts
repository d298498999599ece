/**
 * A firing that lost its burner: what each pan had by then, followed with the checker's own integration of the oven
 * physics. A model only: the metal is measured before anything is believed.
 */
import type { DayFile } from "../contract/day.ts";
import type { PlanLoad } from "../contract/plan.ts";
import type { Interruption } from "../contract/searching.ts";
import { arrivalMinutes } from "../check/cure-window.ts";
import { chamberC, chamberOf, gasKWh, guardedSoakAt, metalC, peakAt, soakAt } from "../check/oven.ts";
import { loaded } from "../check/firing.ts";
import { advance } from "../check/integrate.ts";
import { viewDay } from "../check/day-view.ts";
import { readDay } from "../day/read-day.ts";
import { shopTime } from "../shop/instants.ts";

const stepSeconds = 5;

export interface Interrupted {
  readonly told: Interruption;
  /** Burnt until then. */
  readonly gasKWh: number;
}

/** Undefined for an oven with a fixed cycle, whose heat nobody knows. `day` is the day that the load was planned from. */
export function interruptionOf(day: DayFile, load: PlanLoad, at: number): Interrupted | undefined {
  const read = readDay(day);
  const oven = read.ok ? read.day.ovens.find(({ id }) => id === load.oven) : undefined;
  if (!read.ok || oven?.cycle.kind !== "thermal") return undefined;
  const { cycle } = oven;
  const view = viewDay(read.day, stepSeconds);
  const time = shopTime(day);
  const shelves = oven.space.kind === "shelves" ? oven.space.shelves : [];
  const entries = load.pans.flatMap((place) => {
    const line = view.lines.get(place.id);
    const coat = line?.coats[place.coat - 1] ?? line?.coats.at(place.coat - (line.pan.nextCoat ?? 1));
    if (line === undefined || coat === undefined) return [];
    const areaM2 = 2 * line.coatedM2;
    const offsetC = shelves.find(({ id }) => id === place.shelf)?.offsetC ?? 0;
    const lowC = coat.bake.metalLowC ?? 0;
    const metal = {
      filmWPerK: cycle.filmWPerM2K * areaM2,
      heatJPerK: line.heatJPerK,
      offsetC,
      lowC,
      guardedLowC: lowC + cycle.guardC,
    };
    return [{ place, coat, metal }];
  });
  const chamber = chamberOf(
    cycle,
    read.day.ambientC,
    entries.map(({ metal }) => metal),
    stepSeconds,
  );
  const closed = time.millis(load.doorClosesAt);
  const until = Math.max(0, (at - closed) / 1000);
  const run = loaded(chamber, load.chamberStartC ?? read.day.ambientC, load.kind === "bake" ? cycle.loadMinutes : 0);
  const on = load.burnerOnAt === null ? until : Math.min(until, (time.millis(load.burnerOnAt) - closed) / 1000);
  const off = load.burnerOffAt === null ? until : Math.min(until, (time.millis(load.burnerOffAt) - closed) / 1000);
  advance(run, { kind: "purge" }, on);
  advance(run, { kind: "burn", setPointC: load.setPointC ?? read.day.ambientC }, Math.max(on, off));
  if (until > off) advance(run, { kind: "coast" }, until);
  const pans = entries.map(({ place, coat }, i) => {
    const had = {
      soak: (run.tally[guardedSoakAt(i)] ?? 0) / 60,
      above: (run.tally[soakAt(i)] ?? 0) / 60,
      peakC: Math.max(run.tally[peakAt(i)] ?? -Infinity, metalC(run, i)),
    };
    const least = Math.max(arrivalMinutes, coat.bake.soakLeastMinutes ?? 0);
    const most = coat.bake.soakMostMinutes ?? Infinity;
    const advice = adviceFor(had, least, most, coat.bake.metalHighC ?? Infinity);
    const missing = Math.max(0, least - had.soak);
    return {
      pan: place.id,
      coat: place.coat,
      metalC: round(metalC(run, i)),
      peakC: round(had.peakC),
      soakMinutes: round(had.soak),
      missingMinutes: round(missing),
      advice,
      words: wordsFor(place.id, advice, { metalC: metalC(run, i), soak: had.soak, missing }),
    };
  });
  const told = {
    load: load.id,
    at: time.write(at),
    chamberC: round(chamberC(run)),
    pans,
    steps: stepsAtTheOven(cycle.purgeMinutes),
  };
  return { told, gasKWh: gasKWh(run) };
}

/** As far as a checker lets a soak miss. */
const soakToleranceMinutes = 0.25;

/** What a firing that did not go as planned does to its pans, one sentence each; nothing for those that keep their window. */
export function outcomeNotes(day: DayFile, load: PlanLoad): string[] {
  const outcome = interruptionOf(day, load, shopTime(day).millis(load.unloadAt));
  return (outcome?.told.pans ?? []).flatMap(({ pan, soakMinutes, missingMinutes, peakC, advice }) => {
    if (advice === "strip")
      return [
        `${pan} goes past its window in ${load.id} (up to ${Math.round(peakC)} °C): inspect it, strip it if it is brown or brittle.`,
      ];
    if (advice !== "bake again" && missingMinutes <= soakToleranceMinutes) return [];
    return [
      `${pan} gets only ${soakMinutes.toFixed(1)} min of its soak in ${load.id}, ${missingMinutes.toFixed(1)} min too little: inspect it before anything else goes on it.`,
    ];
  });
}

type Advice = Interruption["pans"][number]["advice"];

function adviceFor(
  had: { soak: number; above: number; peakC: number },
  least: number,
  most: number,
  highC: number,
): Advice {
  if (had.peakC > highC || had.above > most) return "strip";
  if (had.soak >= least) return "inspect";
  if (had.above === 0) return "bake again";
  return had.above + least <= most ? "extend and inspect" : "inspect";
}

function wordsFor(pan: string, advice: Advice, n: { metalC: number; soak: number; missing: number }): string {
  const had = `${pan} was at ${Math.round(n.metalC)} °C and had ${n.soak.toFixed(1)} min of its soak`;
  if (advice === "bake again") return `${had}: it had not begun to cure, so a whole bake is right.`;
  if (advice === "extend and inspect")
    return `${had}: ${n.missing.toFixed(1)} min are missing. A whole bake on top stays inside its window; inspect it after.`;
  if (advice === "strip") return `${had}: it is past its window. Strip it, or ask the coating's maker.`;
  if (n.missing === 0) return `${had}, which is enough: inspect it.`;
  return `${had}: ${n.missing.toFixed(1)} min are missing, but a whole bake on top would be too much. Measure the metal, extend by what is missing if the data sheet allows it, inspect; else strip it.`;
}

function round(value: number): number {
  return Math.round(value * 10) / 10;
}

function stepsAtTheOven(purgeMinutes: number): string[] {
  return [
    "Gas off. Keep the door shut and stand clear: the pans and the chamber are hot though nothing glows.",
    `Before any relighting let the fan purge the chamber in full (${purgeMinutes} min in this shop's figures; the oven's plate rules). Never shorten it.`,
    "Relight only as the oven's plate says. A burner or fan that failed by itself is for a licensed technician.",
    "Measure the metal at the heaviest pan before deciding, on a coated spot, with exhaust running.",
    "Bake on, extend or strip pan by pan as below, and inspect every pan of this load.",
  ];
}
