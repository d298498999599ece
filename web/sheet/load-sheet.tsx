/** One load on one sheet: its number, set-point and times, shelves, pans, checks, ticks, cautions. Prints on one A4. */
import { burnOwedTo, cautions } from "../../api/contract/words.ts";
import { shownLoads } from "../parts/shown-loads.ts";
import { dayOf } from "../parts/clock.ts";
import { ovenName } from "../parts/day-lookup.ts";
import type { Planned } from "../parts/day-lookup.ts";
import { temperature } from "../parts/figures.ts";
import { isLeftAlone } from "../parts/left-alone.ts";
import type { LoadNow } from "../parts/load-now.ts";
import { Cautions } from "../parts/cautions.tsx";
import { Notice } from "../parts/notice.tsx";
import type { ScreenParts } from "../shell/screens.tsx";
import { words } from "../shell/words-en.ts";
import { Checks } from "./checks.tsx";
import { Gates, useTicks } from "./gates.tsx";
import { LoadCurve } from "./load-curve.tsx";
import { PansTable } from "./pans-table.tsx";
import { Readings } from "./readings.tsx";
import { Reports } from "./reports.tsx";
import { ShelfMaps } from "./shelf-map.tsx";
import { Targets } from "./targets.tsx";

/** What every part of the sheet is given. */
export interface SheetPart {
  readonly planned: Planned;
  readonly one: LoadNow;
}

export function LoadSheet({ live, rest, now }: ScreenParts) {
  const { search, day } = live;
  const one = search === null ? undefined : shownLoads(live, search).find(({ id }) => id === rest);
  const isEmpty = one?.load.pans.length === 0;
  const ticks = useTicks(`${search?.id ?? ""} ${rest}`, isEmpty ? words.sheet.emptyGate : words.sheet.gate);
  if (!search?.plan || day === null || one === undefined)
    return <h1>{live.isRead ? words.sheet.noLoad(rest) : words.day.loading}</h1>;
  const part = { planned: { plan: search.plan, day }, one };
  const { load } = one;
  const owedTo = burnOwedTo(day, part.planned.plan.loads, load);
  return (
    <article class={`sheet ${load.pans.length > 14 ? "dense" : ""}`}>
      <p class="buttons">
        <button onClick={() => window.print()}>{words.sheet.print}</button>
        <a class="button second" href="#/">
          {words.sheet.back}
        </a>
      </p>
      <header class="sheethead">
        <h1>
          <span class="aloud">{words.sheet.title} </span>
          <span class="number">{load.id}</span>
        </h1>
        <p class="setpoint">
          <span class="number">{load.setPointC === null ? words.fixedCycle : temperature(load.setPointC)}</span>
        </p>
        <p class="whose">
          <strong>{ovenName(day, load.oven)}</strong>
          <br />
          {words.kind[load.kind]}
          {owedTo !== undefined && words.sheet.owedBefore(owedTo)}, {dayOf(load.doorOpensAt)}
          <br />
          {part.planned.plan.dayTitle}
        </p>
      </header>
      <Targets {...part} />
      <Gates ticks={ticks} />
      {search.inForce ? (
        <Reports {...part} live={live} ticks={ticks} />
      ) : (
        <Notice kind="plain">{words.sheet.notInForce}</Notice>
      )}
      <ShelfMaps {...part} />
      <PansTable {...part} />
      <div class="pair curve-and-checks">
        <LoadCurve {...part} />
        {!isEmpty && <Checks {...part} />}
      </div>
      <Readings {...part} live={live} now={now} />
      <Cautions
        said={cautions({
          highestSetPointC: load.setPointC,
          solvent: load.solventMl > 0,
          leftAlone: isLeftAlone(day, { ...load, state: one.state }),
        })}
      />
      <p class="signature print-only">{words.sheet.done}</p>
      <p class="signature print-only">{words.sheet.signature}</p>
    </article>
  );
}
