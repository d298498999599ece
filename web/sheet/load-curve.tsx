/** Chamber, slowest and fastest metal of a firing over its minutes, with the range that suits every pan shaded. */
import type { PlanLoad } from "../../api/contract/plan.ts";
import { clockOf, millisOf } from "../parts/clock.ts";
import { metalRange } from "../parts/day-lookup.ts";
import { bare, temperature } from "../parts/figures.ts";
import { burnerOffWindow } from "../parts/load-now.ts";
import { Table } from "../parts/table.tsx";
import { movedBy } from "../parts/zone.ts";
import { words } from "../shell/words-en.ts";
import type { SheetPart } from "./load-sheet.tsx";

const wide = 560;
const high = 210;
const left = 44;
const right = 92;
const bottom = 24;
const top = 8;

export function LoadCurve({ planned, one: { load } }: SheetPart) {
  const last = load.curve.at(-1);
  if (last === undefined) return null;
  const hottest = Math.max(...load.curve.flatMap(({ chamberC, fastestC }) => [chamberC, fastestC]));
  const highC = Math.ceil((hottest + 10) / 50) * 50;
  const x = (minute: number): number => left + (minute / Math.max(1, last.minute)) * (wide - left - right);
  const y = (c: number): number => high - bottom - (Math.max(0, c) / highC) * (high - bottom - top);
  const range = metalRange(planned.day, load);
  const off = burnerOffWindow(planned.day, load);
  const { timeZone } = planned.day;
  const minuteOf = (instant: string): number => (millisOf(instant) - millisOf(load.doorClosesAt)) / 60_000;
  const hasPans = load.pans.length > 0;
  return (
    <section>
      <h2>{words.sheet.curve}</h2>
      <svg class="curve" viewBox={`0 0 ${wide} ${high}`} role="img" aria-label={words.sheet.curve}>
        {range !== null && (
          <rect
            class="range"
            x={left}
            y={y(range.high)}
            width={wide - left - right}
            height={y(range.low) - y(range.high)}
          />
        )}
        {degrees(highC).map((c) => (
          <g class="degree">
            <line x1={left} x2={wide - right} y1={y(c)} y2={y(c)} />
            <text x={left - 6} y={y(c) + 4} text-anchor="end">
              {bare("temperature", c)}
            </text>
          </g>
        ))}
        {quarters(last.minute).map((minute) => (
          <text class="minute" x={x(minute)} y={high - 6} text-anchor="middle">
            {clockOf(movedBy(timeZone, load.doorClosesAt, minute))}
          </text>
        ))}
        {off !== null && (
          <rect
            class="off"
            x={x(minuteOf(off.earliest))}
            y={top}
            width={Math.max(2, x(Math.min(last.minute, minuteOf(off.latest))) - x(minuteOf(off.earliest)))}
            height={high - bottom - top}
          />
        )}
        <Line load={load} of="chamberC" x={x} y={y} />
        {hasPans && <Line load={load} of="slowestC" x={x} y={y} />}
        {hasPans && <Line load={load} of="fastestC" x={x} y={y} />}
        <Names load={load} y={y} hasPans={hasPans} />
      </svg>
      <details class="screen-only">
        <summary>{words.clock.table}</summary>
        <CurveTable load={load} timeZone={timeZone} />
      </details>
    </section>
  );
}

type Part = "chamberC" | "slowestC" | "fastestC";
type Along = (n: number) => number;

function Line({
  load,
  of,
  x,
  y,
}: {
  readonly load: PlanLoad;
  readonly of: Part;
  readonly x: Along;
  readonly y: Along;
}) {
  const points = load.curve.map((one) => `${x(one.minute).toFixed(1)},${y(one[of]).toFixed(1)}`);
  return <polyline class={`line ${of}`} points={points.join(" ")} />;
}

/** Names stand behind the lines' ends, never on top of each other. */
function Names({ load, y, hasPans }: { readonly load: PlanLoad; readonly y: Along; readonly hasPans: boolean }) {
  const last = load.curve.at(-1);
  if (last === undefined) return null;
  const parts: readonly Part[] = hasPans ? ["chamberC", "slowestC", "fastestC"] : ["chamberC"];
  const ends = parts.map((of) => ({ of, at: y(last[of]) })).toSorted((a, b) => a.at - b.at);
  const apart = ends.reduce<{ of: Part; at: number }[]>(
    (done, end) => [...done, { ...end, at: Math.max(end.at, (done.at(-1)?.at ?? -Infinity) + 15) }],
    [],
  );
  return (
    <>
      {apart.map(({ of, at }) => (
        <text class={`name ${of}`} x={wide - right + 6} y={at + 4}>
          {words.sheet.line[of]}
        </text>
      ))}
    </>
  );
}

function degrees(highC: number): number[] {
  const step = highC > 250 ? 100 : 50;
  return Array.from({ length: Math.floor(highC / step) + 1 }, (_, i) => i * step);
}

function quarters(minutes: number): number[] {
  const step = minutes > 90 ? 30 : minutes > 40 ? 15 : 10;
  return Array.from({ length: Math.floor(minutes / step) + 1 }, (_, i) => i * step);
}

const everyMinutes = 5;

function CurveTable({ load, timeZone }: { readonly load: PlanLoad; readonly timeZone: string }) {
  const c = words.columns;
  const rows = load.curve.filter(({ minute }, i, all) => minute % everyMinutes === 0 || i === all.length - 1);
  return (
    <Table
      caption={words.sheet.curve}
      columns={[c.minute, words.sheet.line.chamberC, c.slowest, c.fastest]}
      rows={rows.map(({ minute, chamberC, slowestC, fastestC }) => [
        clockOf(movedBy(timeZone, load.doorClosesAt, minute)),
        temperature(chamberC),
        temperature(slowestC),
        temperature(fastestC),
      ])}
    />
  );
}
