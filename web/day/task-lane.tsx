/** What a sprayer or a bench does, on the common clock. */
import { clockOf, millisOf } from "../parts/clock.ts";
import { hoursOf } from "./clock-scale.ts";
import type { Scale } from "./clock-scale.ts";
import type { Lane } from "./lanes.ts";

const height = 30;
const barTop = 4;

export function TaskLane({ lane, scale }: { readonly lane: Lane; readonly scale: Scale }) {
  return (
    <div class="lane">
      <span class="lanename">{lane.name}</span>
      <svg width={scale.width} height={height} role="img" aria-label={lane.name}>
        {hoursOf(scale).map((tick) => (
          <line class="hour" x1={scale.x(tick)} x2={scale.x(tick)} y1={0} y2={height} />
        ))}
        {lane.tasks.map((task) => {
          const x = scale.x(millisOf(task.from));
          return (
            <rect
              class={`task ${lane.kind}`}
              x={x}
              y={barTop}
              width={Math.max(2, scale.x(millisOf(task.to)) - x - 1)}
              height={height - 2 * barTop}
            >
              <title>{`${task.said} ${clockOf(task.from)}–${clockOf(task.to)}`}</title>
            </rect>
          );
        })}
      </svg>
    </div>
  );
}
