/** When the door opens, when the burner may go off, when it comes out, how long the rack is hot. */
import { clockOf, millisOf } from "../parts/clock.ts";
import { mass } from "../parts/figures.ts";
import { burnerOffWindow } from "../parts/load-now.ts";
import { words } from "../shell/words-en.ts";
import type { SheetPart } from "./load-sheet.tsx";

export function Targets({ planned: { day }, one: { load } }: SheetPart) {
  const c = words.columns;
  const off = burnerOffWindow(day, load);
  const hotUntil = load.pans.map(({ cooledAt }) => cooledAt).toSorted((a, b) => millisOf(b) - millisOf(a))[0];
  const facts: readonly (readonly [string, string | null | undefined])[] = [
    [c.doorOpens, clockOf(load.doorOpensAt)],
    [words.sheet.light, load.burnerOnAt && clockOf(load.burnerOnAt)],
    [words.sheet.atSetPoint, load.setPointAt && clockOf(load.setPointAt)],
    [c.earliest, off && clockOf(off.earliest)],
    [c.latest, off && clockOf(off.latest)],
    [c.unload, clockOf(load.unloadAt)],
    [words.sheet.slack, load.slackMinutes === null ? null : words.sheet.minutes(String(load.slackMinutes))],
    [words.sheet.hotUntil, hotUntil && clockOf(hotUntil)],
    [words.sheet.loadMass, mass(load.massKg)],
  ];
  return (
    <dl class="targets">
      {facts.map(([name, said]) => (
        <div>
          <dt>{name}</dt>
          <dd>{said ?? words.none}</dd>
        </div>
      ))}
    </dl>
  );
}
