/** Ovens, booth and benches on one clock, with the line of now; the same as a table behind it. */
import { useEffect, useLayoutEffect, useMemo, useRef, useState } from "preact/hooks";
import { clockAt } from "../parts/clock.ts";
import type { Planned } from "../parts/day-lookup.ts";
import type { LoadNow } from "../parts/load-now.ts";
import { useUnits } from "../parts/units.ts";
import { words } from "../shell/words-en.ts";
import { hoursOf, scaleOf } from "./clock-scale.ts";
import type { Scale } from "./clock-scale.ts";
import { ClockTable } from "./clock-table.tsx";
import { lanesOf } from "./lanes.ts";
import { OvenLane } from "./oven-lane.tsx";
import { PhaseKey } from "./phase-key.tsx";
import { TaskLane } from "./task-lane.tsx";

interface ClockParts {
  readonly planned: Planned;
  readonly loads: readonly LoadNow[];
  readonly now: number;
}

export function DayClock({ planned, loads, now }: ClockParts) {
  const frame = useRef<HTMLDivElement>(null);
  const room = useRoom(frame);
  const units = useUnits();
  const scale = useMemo(() => scaleOf(planned, loads, room), [planned.plan, loads, room]);
  const lanes = useMemo(() => lanesOf(planned), [planned.plan]);
  const { timeZone } = planned.day;
  // Hundreds of bars: drawn anew only when the plan, the width or the units change, not with every second.
  const drawn = useMemo(
    () =>
      scale && (
        <>
          <Hours scale={scale} timeZone={timeZone} />
          {planned.day.ovens.map((oven) => (
            <OvenLane oven={oven} loads={loads.filter(({ load }) => load.oven === oven.id)} scale={scale} />
          ))}
          {lanes.map((lane) => (
            <TaskLane lane={lane} scale={scale} />
          ))}
        </>
      ),
    [scale, loads, lanes, units],
  );
  const table = useMemo(
    () => <ClockTable planned={planned} loads={loads} lanes={lanes} />,
    [planned.plan, loads, lanes, units],
  );
  const at = scale?.x(now) ?? -1;
  useNowInSight(frame, scale, at);
  return (
    <section aria-labelledby="clock">
      <h2 id="clock">{words.clock.title}</h2>
      <div class="frame dayclock" role="region" aria-label={words.clock.title} tabIndex={0} ref={frame}>
        <div class="drawing" style={{ width: `${scale?.width ?? 0}px` }}>
          {drawn}
          {scale !== undefined && now >= scale.from && now <= scale.to && (
            <div class="nowline" style={{ left: `${at}px` }}>
              <span>{words.clock.now}</span>
            </div>
          )}
        </div>
      </div>
      <PhaseKey />
      {table}
    </section>
  );
}

/** Width of the frame, px, kept up to date. */
function useRoom(frame: { readonly current: HTMLDivElement | null }): number {
  const [room, setRoom] = useState(0);
  useLayoutEffect(() => {
    const { current } = frame;
    if (current === null) return undefined;
    setRoom(current.clientWidth);
    const watch = new ResizeObserver(() => setRoom(current.clientWidth));
    watch.observe(current);
    return () => watch.disconnect();
  }, []);
  return room;
}

/** Where the drawing is wider than the window, it opens at now. */
function useNowInSight(frame: { readonly current: HTMLDivElement | null }, scale: Scale | undefined, at: number): void {
  const isDrawn = scale !== undefined;
  useEffect(() => {
    if (frame.current !== null && isDrawn) frame.current.scrollLeft = Math.max(0, at - frame.current.clientWidth / 4);
  }, [isDrawn]);
}

const hoursHeight = 24;

function Hours({ scale, timeZone }: { readonly scale: Scale; readonly timeZone: string }) {
  return (
    <svg width={scale.width} height={hoursHeight} aria-hidden="true">
      {hoursOf(scale).map((tick, i, all) => (
        <text
          x={scale.x(tick)}
          y={16}
          text-anchor={i === 0 ? "start" : i === all.length - 1 ? "end" : "middle"}
          {...(i === all.length - 1 ? { dx: 28 } : {})}
        >
          {clockAt(timeZone, tick)}
        </text>
      ))}
    </svg>
  );
}
