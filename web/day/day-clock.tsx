/** One clock line per oven with its chamber's temperature, the booth and the benches below, and the line of now. */
import type { PlanLoad } from "../../api/contract/plan.ts";
import { clockAt, clockOf, millisOf } from "../parts/clock.ts";
import { coatName, ovenName, pieceName } from "../parts/day-lookup.ts";
import type { Planned } from "../parts/day-lookup.ts";
import { temperature } from "../parts/figures.ts";
import { Table } from "../parts/table.tsx";
import { words } from "../shell/words-en.ts";

const width = 1200;
const left = 110;
const ovenHeight = 130;
const taskHeight = 34;
const top = 26;
const hour = 3_600_000;

interface Lane {
  readonly name: string;
  readonly tasks: readonly { readonly from: string; readonly to: string; readonly said: string }[];
}

export function DayClock({ planned, now }: { readonly planned: Planned; readonly now: number }) {
  const { plan, day } = planned;
  const lanes = lanesOf(planned);
  const ends = [
    ...plan.loads.flatMap((load) => [load.doorOpensAt, load.doneAt]),
    ...lanes.flatMap(({ tasks }) => tasks.flatMap(({ from, to }) => [from, to])),
  ];
  if (ends.length === 0) return null;
  const from = Math.floor(Math.min(...ends.map(millisOf)) / hour) * hour;
  const to = Math.ceil(Math.max(...ends.map(millisOf)) / hour) * hour;
  const x = (millis: number): number => left + ((millis - from) / (to - from)) * (width - left - 26);
  const bottom = top + day.ovens.length * ovenHeight + lanes.length * taskHeight;
  const like = plan.madeAt;
  const every = to - from > 14 * hour ? 2 * hour : hour;
  const ticks = Array.from({ length: Math.floor((to - from) / every) + 1 }, (_, i) => from + i * every);
  return (
    <section aria-labelledby="clock">
      <h2 id="clock">{words.clock}</h2>
      <div class="frame" role="region" aria-label={words.clock} tabIndex={0}>
        <svg class="clock" viewBox={`0 0 ${width} ${bottom + 20}`} role="group" aria-label={words.clock}>
          {ticks.map((tick) => (
            <g class="tick">
              <line x1={x(tick)} x2={x(tick)} y1={top} y2={bottom} />
              <text x={x(tick)} y={18} text-anchor="middle">
                {clockAt(tick, plan.loads[0]?.doorOpensAt ?? like)}
              </text>
            </g>
          ))}
          {day.ovens.map((oven, i) => (
            <OvenLine
              name={oven.name ?? oven.id}
              loads={plan.loads.filter((load) => load.oven === oven.id)}
              y={top + i * ovenHeight}
              x={x}
            />
          ))}
          {lanes.map((lane, i) => (
            <TaskLine lane={lane} y={top + day.ovens.length * ovenHeight + i * taskHeight} x={x} />
          ))}
          {now >= from && now <= to && (
            <g class="now">
              <line x1={x(now)} x2={x(now)} y1={top} y2={bottom} />
              <text x={x(now)} y={bottom + 14} text-anchor="middle">
                {words.now}
              </text>
            </g>
          )}
        </svg>
      </div>
      <details>
        <summary>{words.clockTable}</summary>
        <Table
          caption={words.clock}
          columns={[words.columns.where, words.columns.what, words.columns.from, words.columns.to]}
          rows={[
            ...plan.loads.map((load) => [
              ovenName(day, load.oven),
              words.load(load.id),
              clockOf(load.doorOpensAt),
              clockOf(load.doneAt),
            ]),
            ...lanes.flatMap((lane) =>
              lane.tasks.map((task) => [lane.name, task.said, clockOf(task.from), clockOf(task.to)]),
            ),
          ]}
        />
      </details>
    </section>
  );
}

function lanesOf({ plan, day }: Planned): Lane[] {
  const booths = [...new Set(plan.booth.map(({ sprayer }) => sprayer))].toSorted((a, b) => a - b);
  const benches = [...new Set(plan.prep.map(({ bench }) => bench))].toSorted((a, b) => a - b);
  return [
    ...booths.map((n) => ({
      name: words.booth(n),
      tasks: plan.booth
        .filter(({ sprayer }) => sprayer === n)
        .map((task) => ({ from: task.from, to: task.to, said: `${pieceName(day, task)}, ${coatName(day, task)}` })),
    })),
    ...benches.map((n) => ({
      name: words.bench(n),
      tasks: plan.prep
        .filter(({ bench }) => bench === n)
        .map((task) => ({ from: task.from, to: task.to, said: pieceName(day, task) })),
    })),
  ];
}

type Across = (millis: number) => number;

function OvenLine({
  name,
  loads,
  y,
  x,
}: {
  readonly name: string;
  readonly loads: readonly PlanLoad[];
  readonly y: number;
  readonly x: Across;
}) {
  const base = y + ovenHeight - 12;
  const hottest = Math.max(1, ...loads.flatMap((load) => load.curve.map(({ chamberC }) => chamberC)));
  const up = (c: number): number => base - (Math.max(0, c) / hottest) * (ovenHeight - 62);
  return (
    <g class="oven">
      <text x={4} y={y + 60} class="lane">
        {name}
      </text>
      <line x1={left} x2={width - 12} y1={base} y2={base} />
      {loads.map((load) => {
        const start = x(millisOf(load.doorOpensAt));
        const wide = Math.max(2, x(millisOf(load.doneAt)) - start);
        const points = load.curve.map(
          ({ minute, chamberC }) =>
            `${x(millisOf(load.doorClosesAt) + minute * 60_000).toFixed(1)},${up(chamberC).toFixed(1)}`,
        );
        return (
          <a href={`#/load/${encodeURIComponent(load.id)}`}>
            <rect
              x={start}
              y={y + 4}
              width={wide}
              height={ovenHeight - 16}
              class={`block ${load.kind.replace(" ", "-")}`}
            />
            <polyline points={points.join(" ")} class="chamber" />
            <text x={start + 6} y={y + 22} class="loadname">
              {load.id}
            </text>
            {wide > 52 && (
              <text x={start + 6} y={y + 38}>
                {load.setPointC === null ? words.fixedCycle : temperature(load.setPointC)}
              </text>
            )}
          </a>
        );
      })}
    </g>
  );
}

function TaskLine({ lane, y, x }: { readonly lane: Lane; readonly y: number; readonly x: Across }) {
  return (
    <g class="task">
      <text x={4} y={y + 22} class="lane">
        {lane.name}
      </text>
      {lane.tasks.map((task) => (
        <rect
          x={x(millisOf(task.from))}
          y={y + 6}
          width={Math.max(2, x(millisOf(task.to)) - x(millisOf(task.from)) - 1)}
          height={taskHeight - 12}
        >
          <title>{`${task.said} ${clockOf(task.from)}–${clockOf(task.to)}`}</title>
        </rect>
      ))}
    </g>
  );
}
