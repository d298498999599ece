/** A day in figures: fired, gas foreseen and measured, failed by cause, the firings one by one. */
import type { ComponentChildren } from "preact";
import type { DaySummary } from "../../api/contract/closed-day.ts";
import { whenOf } from "../parts/clock.ts";
import { gas, rounded, temperature } from "../parts/figures.ts";
import { Table } from "../parts/table.tsx";
import { words } from "../shell/words-en.ts";

interface SummaryParts {
  readonly summary: DaySummary;
  /** Where the meter's reading is entered; none for a day that is over. */
  readonly meter?: ComponentChildren;
}

export function Summary({ summary, meter }: SummaryParts) {
  const w = words.close;
  const f = w.fact;
  const { measuredGas, measuredKWhPerPan, kWhPerPan } = summary;
  return (
    <>
      <dl class="figures">
        <Fact name={f.fired}>{summary.bakes}</Fact>
        <Fact name={f.loads}>{summary.loads}</Fact>
        <Fact name={f.finished}>{summary.pansFinished}</Fact>
        <Fact name={f.failed}>{summary.pansFailed}</Fact>
        <Fact name={f.gas}>{gas(summary.gasKWh)}</Fact>
        <Fact name={f.perPan}>{kWhPerPan === null ? words.none : gas(kWhPerPan)}</Fact>
        {measuredGas !== null && <Fact name={f.measured}>{gas(measuredGas.kWh)}</Fact>}
        {measuredKWhPerPan !== null && <Fact name={f.measuredPerPan}>{gas(measuredKWhPerPan)}</Fact>}
        {measuredGas?.differencePercent != null && (
          <Fact name={f.more}>{percentOf(measuredGas.differencePercent)}</Fact>
        )}
      </dl>
      <h2>{w.gasTitle}</h2>
      {measuredGas === null ? <p>{w.noMeasure}</p> : <Measured measured={measuredGas} />}
      {meter}
      <h2>{w.failures}</h2>
      {summary.failures.length === 0 ? (
        <p>{w.noFailures}</p>
      ) : (
        <Table
          caption={w.failures}
          columns={[w.cause, w.pans]}
          rows={summary.failures.map(({ cause, pans }) => [cause, pans])}
        />
      )}
    </>
  );
}

function Fact({ name, children }: { readonly name: string; readonly children: ComponentChildren }) {
  return (
    <div>
      <dt>{name}</dt>
      <dd>{children}</dd>
    </div>
  );
}

const farPercent = 10;

function Measured({ measured }: { readonly measured: NonNullable<DaySummary["measuredGas"]> }) {
  const w = words.close;
  const { units, unit, by, from, to, readings, foreseenKWh, differencePercent } = measured;
  const burnt = `${rounded(units, 2)} ${unit.replace(/^m3$/, "m³")}`;
  return (
    <>
      <p>{w.measuredSpan(burnt, w.by[by], whenOf(from, from), whenOf(to, from), readings)}</p>
      <p>{w.foreseenSpan(gas(foreseenKWh))}</p>
      {Math.abs(differencePercent ?? 0) > farPercent && <p>{w.ratherFar}</p>}
    </>
  );
}

function percentOf(percent: number): string {
  const w = words.close;
  const size = rounded(Math.abs(percent), 1);
  if (size === rounded(0, 1)) return w.percentSame;
  return percent > 0 ? w.percentMore(size) : w.percentLess(size);
}

export function Firings({ summary: { fired } }: { readonly summary: DaySummary }) {
  const w = words.close;
  const c = words.columns;
  const [first] = fired;
  if (first === undefined) return null;
  return (
    <>
      <h2>{w.fired}</h2>
      <Table
        caption={w.fired}
        columns={[c.load, c.oven, c.what, c.setPoint, c.doorOpens, c.unload, c.pans, c.gas, w.column.state]}
        rows={fired.map((one) => [
          one.load,
          one.oven,
          words.kind[one.kind],
          one.setPointC === null ? words.fixedCycle : temperature(one.setPointC),
          whenOf(one.doorOpensAt, first.doorOpensAt),
          whenOf(one.doneAt, first.doorOpensAt),
          one.pans,
          gas(one.gasKWh),
          words.loadState[one.state],
        ])}
      />
    </>
  );
}
