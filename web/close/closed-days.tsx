/** Days closed before: the list, and one of them as it was recorded, with its plans. */
import { useEffect, useState } from "preact/hooks";
import type { ClosedDayWithFiles } from "../../api/contract/closed-day.ts";
import type { DayFile } from "../../api/contract/day.ts";
import { dayAndClock } from "../parts/clock.ts";
import { gas } from "../parts/figures.ts";
import { Table } from "../parts/table.tsx";
import { attempt } from "../shell/live.ts";
import { words } from "../shell/words-en.ts";
import { filesOf, readClosed } from "./days.ts";
import type { ClosedDay } from "./days.ts";
import { Saved } from "./saved.tsx";
import { Firings, Summary } from "./summary.tsx";

interface ClosedDaysParts {
  readonly days: readonly ClosedDay[];
  readonly timeZone: string;
}

export function ClosedDays({ days, timeZone }: ClosedDaysParts) {
  const w = words.close;
  const c = w.column;
  const f = w.fact;
  return (
    <>
      <h2>{w.past}</h2>
      {days.length === 0 ? (
        <p>{w.noPast}</p>
      ) : (
        <Table
          caption={w.past}
          columns={[c.day, c.closed, f.fired, f.failed, f.gas, f.perPan]}
          rows={days.map(({ id, title, closedAt, summary }) => [
            <a class="loadlink" href={`#/close/${id}`}>
              {title === "" ? w.untitled : title}
            </a>,
            dayAndClock(timeZone, closedAt),
            summary.bakes,
            summary.pansFailed,
            gas(summary.gasKWh),
            summary.kWhPerPan === null ? words.none : gas(summary.kWhPerPan),
          ])}
        />
      )}
    </>
  );
}

export function ClosedDayShown({ id }: { readonly id: string }) {
  const w = words.close;
  const [read, setRead] = useState<ClosedDayWithFiles | null>(null);
  useEffect(() => void attempt(async () => setRead(await readClosed(id))), [id]);
  const day = read?.day as DayFile | undefined;
  return (
    <>
      <h1>{read === null || read.title === "" ? w.past : read.title}</h1>
      <p>
        <a class="button second" href="#/close">
          {w.back}
        </a>
      </p>
      {read !== null && day !== undefined && (
        <>
          <p>{w.closedAt(dayAndClock(day.timeZone, read.closedAt))}</p>
          <Summary summary={read.summary} />
          <Saved ofDay={read.summary.saved} spans={null} currency={day.currency ?? "EUR"} />
          <Firings summary={read.summary} />
          <Plans read={read} timeZone={day.timeZone} />
          <p>
            <a class="button second" href={filesOf(id)} download={`day-${id}.json`}>
              {w.files}
            </a>
          </p>
        </>
      )}
    </>
  );
}

function Plans({ read, timeZone }: { readonly read: ClosedDayWithFiles; readonly timeZone: string }) {
  const w = words.close;
  const c = w.column;
  return (
    <>
      <h2>{w.plans}</h2>
      {read.plans.length === 0 ? (
        <p>{w.noPlans}</p>
      ) : (
        <Table
          caption={w.plans}
          columns={[c.plan, c.kind, c.accepted, c.version]}
          rows={read.plans.map((plan) => [
            plan.id,
            w.planKind[plan.kind],
            dayAndClock(timeZone, plan.acceptedAt),
            plan.version,
          ])}
        />
      )}
    </>
  );
}
