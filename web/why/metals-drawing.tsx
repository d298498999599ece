/** Two metals and the chamber over the minutes of one firing, each metal's window shaded behind it. */
import type { DrawnFiring } from "../../api/contract/explaining.ts";
import { bare } from "../parts/figures.ts";
import { unitOf } from "../parts/units.ts";
import { words } from "../shell/words-en.ts";

const wide = 640;
const high = 380;
const left = 44;
const right = 12;
const bottom = 54;
const top = 26;
const innerWide = wide - left - right;
const innerHigh = high - bottom - top;

const sides = ["one", "other"] as const;

export function MetalsDrawing({ firing }: { readonly firing: DrawnFiring }) {
  const w = words.why;
  const { points, metals, unloadMinute, burnerOffMinute } = firing;
  const highest = Math.max(...points.map(({ chamberC }) => chamberC), ...metals.map(({ highestC }) => highestC));
  const highC = Math.ceil((highest + 10) / 50) * 50;
  const x = (minute: number): number => left + (minute / Math.max(1, unloadMinute)) * innerWide;
  const y = (c: number): number => top + innerHigh - (Math.max(0, Math.min(c, highC)) / highC) * innerHigh;
  const line = (of: (point: DrawnFiring["points"][number]) => number): string =>
    points.map((point) => `${x(point.minute).toFixed(1)},${y(of(point)).toFixed(1)}`).join(" ");
  return (
    <figure class="metals">
      <ul class="key">
        <li>
          <Swatch kind="line chamberC" />
          {w.chamber}
        </li>
        {metals.map(({ pan }, i) => (
          <>
            <li>
              <Swatch kind={`line ${sides[i]}`} />
              {w.metalOf(pan)}
            </li>
            <li>
              <Swatch kind={`window ${sides[i]}`} />
              {w.windowOf(pan)}
            </li>
          </>
        ))}
      </ul>
      <svg
        class="curve"
        viewBox={`0 0 ${wide} ${high}`}
        role="img"
        aria-label={w.drawing(metals[0]?.pan ?? "", metals[1]?.pan ?? "")}
      >
        {metals.map(({ lowestC, highestC }, i) => (
          <rect
            class={`window ${sides[i]}`}
            x={left}
            y={y(highestC)}
            width={innerWide}
            height={Math.max(1, y(lowestC) - y(highestC))}
          />
        ))}
        {scale(highC, 100).map((c) => (
          <g class="degree">
            <line x1={left} x2={wide - right} y1={y(c)} y2={y(c)} />
            <text x={left - 6} y={y(c) + 4} text-anchor="end">
              {bare("temperature", c)}
            </text>
          </g>
        ))}
        <text x={left - 6} y={16} text-anchor="end">
          {unitOf("temperature").unit}
        </text>
        {scale(unloadMinute, unloadMinute > 60 ? 20 : 10).map((minute) => (
          <text x={x(minute)} y={high - bottom + 20} text-anchor="middle">
            {minute}
          </text>
        ))}
        <text x={left + innerWide / 2} y={high - 6} text-anchor="middle">
          {w.minutes}
        </text>
        <line class="off" x1={x(burnerOffMinute)} x2={x(burnerOffMinute)} y1={top} y2={high - bottom} />
        <text x={x(burnerOffMinute)} y={16} text-anchor={burnerOffMinute > unloadMinute / 2 ? "end" : "start"}>
          {w.burnerOff}
        </text>
        <polyline class="line chamberC" points={line(({ chamberC }) => chamberC)} />
        <polyline class="line one" points={line(({ oneC }) => oneC)} />
        <polyline class="line other" points={line(({ otherC }) => otherC)} />
      </svg>
    </figure>
  );
}

function Swatch({ kind }: { readonly kind: string }) {
  return (
    <svg width="28" height="14" aria-hidden="true">
      {kind.startsWith("line") ? (
        <polyline class={kind} points="0,7 28,7" />
      ) : (
        <rect class={kind} width="28" height="14" />
      )}
    </svg>
  );
}

function scale(most: number, step: number): number[] {
  return Array.from({ length: Math.floor(most / step) + 1 }, (_, i) => i * step);
}
