/** One load on one A4 sheet: number, set-point, times, shelves, ticks, cautions. */
import { useState } from "preact/hooks";
import type { PlanLoad } from "../../api/contract/plan.ts";
import { clockOf } from "../parts/clock.ts";
import { burnerOffWindow } from "../parts/load-now.ts";
import { coatName, metalRange, ovenName, panOf, pieceName } from "../parts/day-lookup.ts";
import type { Planned } from "../parts/day-lookup.ts";
import { bare, rounded, temperature } from "../parts/figures.ts";
import type { ScreenParts } from "../shell/screens.tsx";
import { ShelfMaps } from "./shelf-map.tsx";
import { Table } from "../parts/table.tsx";
import { words } from "../shell/words-en.ts";

export function LoadSheet({ live: { search, day, isRead }, rest }: ScreenParts) {
  const load = search?.plan?.loads.find(({ id }) => id === rest);
  if (!search?.plan || day === null || load === undefined)
    return <h1>{isRead ? words.noLoad(rest) : words.day.loading}</h1>;
  const planned = { plan: search.plan, day };
  return (
    <article class="sheet">
      <p class="buttons">
        <a class="button" href="#/">
          {words.back}
        </a>
        <button onClick={() => window.print()}>{words.print}</button>
      </p>
      <header>
        <h1>
          <span class="small">{words.sheet}</span> <span class="number">{load.id}</span>
        </h1>
        <p>
          {ovenName(planned.day, load.oven)}, {words.kind[load.kind]}
        </p>
      </header>
      <Targets planned={planned} load={load} />
      <Gates id={`${planned.plan.madeAt} ${load.id}`} />
      <h2>{words.shelves}</h2>
      <ShelfMaps planned={planned} load={load} />
      <Pans planned={planned} load={load} />
      <h2>{words.cautions}</h2>
      <ul class="fine">
        {planned.plan.cautions.map((caution) => (
          <li>{caution}</li>
        ))}
      </ul>
    </article>
  );
}

interface SheetPart {
  readonly planned: Planned;
  readonly load: PlanLoad;
}

function Targets({ planned: { day }, load }: SheetPart) {
  const c = words.columns;
  const off = burnerOffWindow(day, load);
  const range = metalRange(day, load);
  const facts: [string, string | null][] = [
    [c.setPoint, load.setPointC === null ? words.fixedCycle : temperature(load.setPointC)],
    [c.doorOpens, clockOf(load.doorOpensAt)],
    [c.earliest, off && clockOf(off.earliest)],
    [c.burnerOff, load.burnerOffAt && clockOf(load.burnerOffAt)],
    [c.latest, off && clockOf(off.latest)],
    [c.unload, clockOf(load.unloadAt)],
    [words.slack, load.slackMinutes === null ? null : words.slackSaid(load.slackMinutes)],
    [
      words.check,
      range &&
        load.burnerOffAt &&
        words.checkSaid(bare("temperature", range.low), temperature(range.high), clockOf(load.burnerOffAt)),
    ],
  ];
  return (
    <section>
      <h2>{words.targets}</h2>
      <dl>
        {facts.map(([name, said]) => (
          <div>
            <dt>{name}</dt>
            <dd>{said ?? words.none}</dd>
          </div>
        ))}
      </dl>
      <p class="fine">{words.checkHint}</p>
    </section>
  );
}

/** Ticks stay on this tablet until the plan changes. */
function Gates({ id }: { readonly id: string }) {
  const [ticked, setTicked] = useState<readonly string[]>(() => (localStorage.getItem(id) ?? "").split("|"));
  const turn = (gate: string): void => {
    const now = ticked.includes(gate) ? ticked.filter((one) => one !== gate) : [...ticked, gate];
    localStorage.setItem(id, now.join("|"));
    setTicked(now);
  };
  return (
    <fieldset>
      <legend>{words.gates}</legend>
      {words.gate.map((gate) => (
        <label class="gate">
          <input type="checkbox" checked={ticked.includes(gate)} onChange={() => turn(gate)} /> {gate}
        </label>
      ))}
    </fieldset>
  );
}

function Pans({ planned: { day }, load }: SheetPart) {
  const c = words.columns;
  return (
    <Table
      caption={c.pans}
      columns={[c.pan, c.ticket, c.coat, c.shelf, c.turned, c.inWindow, c.soak, c.peak, c.cooled]}
      rows={load.pans.map((pan) => [
        pieceName(day, pan),
        panOf(day, pan.id)?.ticket ?? pan.id,
        coatName(day, pan),
        pan.shelf,
        pan.turned ? words.quarterTurn : words.asDrawn,
        pan.inWindowAt && clockOf(pan.inWindowAt),
        pan.soakMinutes === null ? null : `${rounded(pan.soakMinutes, 1)} min`,
        pan.peakC === null ? null : temperature(pan.peakC),
        clockOf(pan.cooledAt),
      ])}
    />
  );
}
