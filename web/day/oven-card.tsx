/** One oven, readable across the room: the load in it with its countdown, and the load that goes in next. */
import type { DayFile } from "../../api/contract/day.ts";
import { clockOf, countdown, millisOf } from "../parts/clock.ts";
import type { OvenFile } from "../parts/day-lookup.ts";
import { temperature } from "../parts/figures.ts";
import { burnerOffWindow, isToCome, isUnderWay } from "../parts/load-now.ts";
import type { LoadNow } from "../parts/load-now.ts";
import { reportOf } from "../shell/events.ts";
import type { Live } from "../shell/live.ts";
import { words } from "../shell/words-en.ts";
import { dueNow } from "./firing-now.ts";

interface CardParts {
  readonly oven: OvenFile;
  readonly loads: readonly LoadNow[];
  readonly live: Live;
  readonly day: DayFile;
  readonly now: number;
}

export function OvenCard({ oven, loads, live, day, now }: CardParts) {
  const own = loads.filter(({ load }) => load.oven === oven.id);
  const inside = own.find((one) => isUnderWay(one, now));
  const next = own.find((one) => isToCome(one, now));
  const name = oven.name ?? oven.id;
  return (
    <section class="oven-card" aria-label={name}>
      <div class="half inside">
        <h2>{words.day.inside(name)}</h2>
        {inside === undefined ? <p class="empty">{words.day.empty}</p> : <Inside {...{ inside, live, day, now }} />}
      </div>
      <div class="half next">
        <h2>{words.day.nextInto(name)}</h2>
        {next === undefined ? <p class="empty">{words.day.nothingNext}</p> : <Next {...{ next, day, now }} />}
      </div>
    </section>
  );
}

interface InsideParts {
  readonly inside: LoadNow;
  readonly live: Live;
  readonly day: DayFile;
  readonly now: number;
}

function Inside({ inside, live, day, now }: InsideParts) {
  const { load } = inside;
  const reported = {
    closed: reportOf(live.events, load.id, "load-closed") !== undefined,
    off: reportOf(live.events, load.id, "burner-off") !== undefined,
  };
  const due = dueNow(day, inside, reported, now);
  const toFrom = millisOf(due.from) - now;
  const isDue = toFrom <= 0;
  const toLatest = due.latest === null ? null : millisOf(due.latest) - now;
  const isOver = toLatest !== null && toLatest < 0;
  return (
    <>
      <LoadLine load={load} />
      <p class="what">{(isDue ? words.day.dueNow : words.day.dueIn)[due.what]}</p>
      <p class={`clockface ${isOver ? "over" : ""}`} role="timer">
        {isDue ? words.day.now : countdown(toFrom)}
      </p>
      <p class="window">
        {toLatest === null || due.latest === null
          ? words.at(clockOf(due.from))
          : isOver
            ? words.day.pastLatest(clockOf(due.latest))
            : words.day.window(clockOf(due.from), clockOf(due.latest), countdown(toLatest))}
      </p>
    </>
  );
}

function Next({ next: { load }, day, now }: { readonly next: LoadNow; readonly day: DayFile; readonly now: number }) {
  const off = burnerOffWindow(day, load);
  const isEmpty = load.pans.length === 0;
  return (
    <>
      <LoadLine load={load} />
      <p class="what">{isEmpty ? words.day.purgeStarts : words.day.doorOpens}</p>
      <p class="clockface">{clockOf(load.doorOpensAt)}</p>
      <p class="window">
        <strong>{words.inTime(Math.round((millisOf(load.doorOpensAt) - now) / 60_000))}.</strong>{" "}
        {off !== null && `${words.day.offBetween(clockOf(off.earliest), clockOf(off.latest))} `}
        {(isEmpty ? words.day.ends : words.day.out)(clockOf(load.unloadAt))}
      </p>
    </>
  );
}

/** The load's number and its set-point are what people look for. */
function LoadLine({ load }: { readonly load: LoadNow["load"] }) {
  return (
    <p class="loadline">
      <a href={`#/load/${encodeURIComponent(load.id)}`} aria-label={words.day.sheetOf(load.id)}>
        {load.id}
      </a>
      <span>{load.setPointC === null ? words.fixedCycle : temperature(load.setPointC)}</span>
      <small>{load.pans.length === 0 ? words.kind[load.kind] : words.day.pans(load.pans.length)}</small>
    </p>
  );
}
