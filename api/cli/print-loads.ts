/** One block per firing of a printed plan: times, set-point, how exact the burner's end must be, pans by shelf. */
import type { DayOven } from "../contract/day.ts";
import type { PlanLoad } from "../contract/plan.ts";
import { burnOwedTo } from "../contract/words.ts";
import { shifted } from "./clock-text.ts";
import { figure, wrap, wrapParts } from "./lines.ts";
import { order } from "./hands.ts";
import { coatOf, coatsText, gathered, ovenOf, piecesText } from "./plan-words.ts";
import type { Printed } from "./plan-words.ts";

const INDENT = "      ";

export function loadLines(printed: Printed, load: PlanLoad): string[] {
  const oven = ovenOf(printed.day, load.oven);
  return [
    ...wrap(headText(printed, load, oven), "  ", INDENT),
    ...wrapParts(timeParts(printed, load), " · ", INDENT),
    ...windowLines(printed, load, oven),
    ...(load.pans.length > 0 ? placeLines(printed, load, oven) : []),
  ];
}

const states = { planned: "", pinned: " — pinned", firing: " — burning now", fired: " — done" } as const;

function headText({ day, plan }: Printed, load: PlanLoad, oven: DayOven): string {
  const heat = load.setPointC === null ? "" : `, set-point ${load.setPointC} °C`;
  const owedTo = burnOwedTo(day, plan.loads, load);
  const owed = owedTo === undefined ? "" : `, owed before ${owedTo}`;
  const what = load.kind === "bake" ? coatsText(day, load) : `${load.kind}, oven empty${owed}`;
  const burden = load.kind === "bake" ? `, ${figure(load.massKg)} kg` : "";
  const solvent = load.solventMl > 0 ? `, ${figure(load.solventMl, 0)} mL solvent` : "";
  return `${load.id}  ${oven.name}${heat}: ${what}${burden}${solvent}, ${figure(load.gasKWh)} kWh${states[load.state]}`;
}

function timeParts({ clock }: Printed, load: PlanLoad): string[] {
  const at = (instant: string | null, words: (time: string) => string): string[] =>
    instant === null ? [] : [words(clock.time(instant))];
  const lit = [
    ...at(load.burnerOnAt, (time) => `burner on ${time}`),
    ...(load.setPointAt === null ? [] : [`at ${load.setPointC} °C by ${clock.by(load.setPointAt)}`]),
    ...at(load.burnerOffAt, (time) => `burner off ${time}`),
  ];
  if (load.kind !== "bake") return [`purge from ${clock.time(load.doorClosesAt)}`, ...lit];
  return [
    `door open ${clock.time(load.doorOpensAt)}`,
    `closed ${clock.time(load.doorClosesAt)}`,
    ...lit,
    `unload ${clock.time(load.unloadAt)}`,
    `empty ${clock.time(load.doneAt)}`,
  ];
}

function windowLines({ clock }: Printed, load: PlanLoad, oven: DayOven): string[] {
  const said: string[] = [];
  if (load.ventMinutes > 0) {
    const from = clock.time(shifted(load.doorOpensAt, -load.ventMinutes));
    said.push(`Fan on from ${from}, burner off, to bring the chamber down before the door opens.`);
  }
  if (
    load.kind === "bake" &&
    load.burnerOffAt !== null &&
    oven.cycle.kind === "thermal" &&
    load.slackMinutes !== null
  ) {
    const earliest = clock.time(shifted(load.burnerOffAt, -oven.cycle.earlyMinutes));
    const latest = clock.time(shifted(load.burnerOffAt, load.slackMinutes));
    said.push(`Burner off and unload may shift together: burner off from ${earliest} to ${latest} keeps every window.`);
    said.push(...temperatureText(load, clock.by));
  }
  return said.flatMap((text) => wrap(text, INDENT));
}

function temperatureText(load: PlanLoad, by: (instant: string) => string): string[] {
  const reached = load.pans.map(({ inWindowAt }) => inWindowAt).filter((at) => at !== null);
  const last = reached.toSorted(order).at(-1);
  const soaks = load.pans.map(({ soakMinutes }) => soakMinutes).filter((soak) => soak !== null);
  const peaks = load.pans.map(({ peakC }) => peakC).filter((peak) => peak !== null);
  if (last === undefined || reached.length < load.pans.length || soaks.length === 0 || peaks.length === 0) return [];
  const soak = range(Math.min(...soaks), Math.max(...soaks));
  const peak = range(Math.min(...peaks), Math.max(...peaks));
  return [`The slowest metal is in its window by ${by(last)}; soak ${soak} min, metal at most ${peak} °C.`];
}

function range(low: number, high: number): string {
  const [from, to] = [low.toFixed(0), high.toFixed(0)];
  return from === to ? from : `${from}–${to}`;
}

/** Warmest shelf first, and on it the pans of one line and coat together. */
function placeLines(printed: Printed, load: PlanLoad, oven: DayOven): string[] {
  const { space } = oven;
  if (space.kind === "area") return wrapParts(panParts(printed, load.pans), "; ", `${INDENT}in it: `, `${INDENT}  `);
  return space.shelves
    .toSorted((a, b) => b.offsetC - a.offsetC)
    .flatMap((shelf) => {
      const pans = load.pans.filter((pan) => pan.shelf === shelf.id);
      if (pans.length === 0) return [];
      const offset =
        shelf.offsetC === 0 ? "" : ` (${shelf.offsetC > 0 ? "+" : "−"}${figure(Math.abs(shelf.offsetC))} °C)`;
      return wrapParts(panParts(printed, pans), "; ", `${INDENT}shelf ${shelf.id}${offset}: `, `${INDENT}  `);
    });
}

type Pan = PlanLoad["pans"][number];

function panParts({ day }: Printed, pans: readonly Pan[]): string[] {
  const sorted = pans.toSorted((a, b) => a.id.localeCompare(b.id) || a.coat - b.coat || a.item - b.item);
  const manyCoats = new Set(pans.map((pan) => coatOf(day, pan).name)).size > 1;
  return gathered(sorted, (a, b) => a.id === b.id && a.coat === b.coat).flatMap((group) => {
    const first = group[0];
    if (!first) return [];
    const coat = manyCoats ? ` ${coatOf(day, first).name}` : "";
    if (first.xCm === null)
      return [
        piecesText(
          day,
          first.id,
          group.map(({ item }) => item),
        ) + coat,
      ];
    return group.map(
      (pan, i) => `${i === 0 || manyCoats ? piecesText(day, pan.id, [pan.item]) : pan.item}${coat}${placeText(pan)}`,
    );
  });
}

function placeText({ xCm, yCm, turned }: Pan): string {
  if (xCm === null || yCm === null) return "";
  return ` at ${figure(xCm)}/${figure(yCm)}${turned ? " turned" : ""}`;
}
