/** One oven on the common clock: its chamber's temperature, and beneath it what each load goes through. */
import { clockOf, millisOf } from "../parts/clock.ts";
import type { OvenFile } from "../parts/day-lookup.ts";
import { bare, temperature } from "../parts/figures.ts";
import { phasesOf } from "../parts/load-now.ts";
import type { LoadNow } from "../parts/load-now.ts";
import { words } from "../shell/words-en.ts";
import { hoursOf } from "./clock-scale.ts";
import type { Scale } from "./clock-scale.ts";

interface LaneParts {
  readonly oven: OvenFile;
  readonly loads: readonly LoadNow[];
  readonly scale: Scale;
}

const top = 46;
const base = 136;
const stripHeight = 20;
const height = base + stripHeight + 4;
/** A narrower load shows no set-point. */
const roomForSetPoint = 46;
const roomForName = 20;

export function OvenLane({ oven, loads, scale }: LaneParts) {
  const hottest = Math.max(100, ...loads.flatMap(({ load }) => load.curve.map(({ chamberC }) => chamberC)));
  const highC = Math.ceil(hottest / 100) * 100;
  const y = (c: number): number => base - (Math.max(0, c) / highC) * (base - top);
  const name = oven.name ?? oven.id;
  return (
    <div class="lane">
      <span class="lanename">
        {name} <small>{words.clock.chamber(temperature(highC))}</small>
      </span>
      <svg width={scale.width} height={height} role="group" aria-label={name}>
        {hoursOf(scale).map((tick) => (
          <line class="hour" x1={scale.x(tick)} x2={scale.x(tick)} y1={0} y2={base} />
        ))}
        {[1, 2, 3, 4, 5]
          .filter((n) => n * 100 <= highC)
          .map((n) => (
            <g class="degree">
              <line x1={0} x2={scale.x(scale.to)} y1={y(n * 100)} y2={y(n * 100)} />
              {n % 2 === 0 && (
                <text x={scale.x(scale.to) + 2} y={y(n * 100) + 4}>
                  {bare("temperature", n * 100)}
                </text>
              )}
            </g>
          ))}
        <polyline class="between" points={between(loads, scale, y)} />
        {loads.map((one) => (
          <LoadBlock one={one} scale={scale} y={y} />
        ))}
        <line class="ground" x1={0} x2={scale.x(scale.to)} y1={base} y2={base} />
      </svg>
    </div>
  );
}

type Up = (c: number) => number;

function LoadBlock({ one, scale, y }: { readonly one: LoadNow; readonly scale: Scale; readonly y: Up }) {
  const { load, state } = one;
  const x = scale.x(millisOf(load.doorOpensAt));
  const wide = Math.max(3, scale.x(millisOf(load.doneAt)) - x);
  const setPoint = load.setPointC === null ? words.fixedCycle : temperature(load.setPointC);
  return (
    <a href={`#/load/${encodeURIComponent(load.id)}`} class={`load ${state}`}>
      <title>{words.clock.loadSaid(load.id, setPoint, clockOf(load.doorOpensAt), clockOf(load.doneAt))}</title>
      <rect class={`block ${load.kind.replace(" ", "-")}`} x={x} y={1} width={wide} height={base - 1} />
      {phasesOf(load).map(({ name, from, to }) => (
        <rect
          class={`phase ${name}`}
          x={scale.x(from)}
          y={base + 2}
          width={Math.max(1, scale.x(to) - scale.x(from))}
          height={stripHeight}
        />
      ))}
      <polyline class="chamber" points={curve(one, scale, y)} />
      {wide > roomForName && (
        <text class="loadname" x={x + 5} y={18}>
          {load.id}
        </text>
      )}
      {wide > roomForSetPoint && (
        <text x={x + 5} y={37}>
          {setPoint}
        </text>
      )}
    </a>
  );
}

function curve({ load }: LoadNow, scale: Scale, y: Up): string {
  const closes = millisOf(load.doorClosesAt);
  const opened = load.chamberStartC === null ? [] : [point(scale, y, millisOf(load.doorOpensAt), load.chamberStartC)];
  const closed = load.curve.map(({ minute, chamberC }) => point(scale, y, closes + minute * 60_000, chamberC));
  return [...opened, ...closed].join(" ");
}

/** Where nothing is fired, a dashed line from the end of one curve to the start of the next. */
function between(loads: readonly LoadNow[], scale: Scale, y: Up): string {
  return loads
    .flatMap(({ load }) => {
      const last = load.curve.at(-1);
      const start = load.chamberStartC;
      return [
        ...(start === null ? [] : [point(scale, y, millisOf(load.doorOpensAt), start)]),
        ...(last === undefined ? [] : [point(scale, y, millisOf(load.unloadAt), last.chamberC)]),
      ];
    })
    .join(" ");
}

function point(scale: Scale, y: Up, millis: number, c: number): string {
  return `${scale.x(millis).toFixed(1)},${y(c).toFixed(1)}`;
}
