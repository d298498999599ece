/** What people do next at the ovens, the benches and the booth, and by when. */
import { millisOf, whenOf } from "../parts/clock.ts";
import type { Planned } from "../parts/day-lookup.ts";
import type { LoadNow } from "../parts/load-now.ts";
import { words } from "../shell/words-en.ts";
import { nextSteps } from "./next-steps.ts";

interface ToDoParts {
  readonly planned: Planned;
  readonly loads: readonly LoadNow[];
  readonly now: number;
}

const shown = 6;

export function ToDo({ planned, loads, now }: ToDoParts) {
  const steps = nextSteps(planned, loads, now, shown);
  const today = steps[0]?.at ?? planned.plan.madeAt;
  return (
    <section class="to-do">
      <h2>{words.day.toDo}</h2>
      {steps.length === 0 && <p class="empty">{words.day.nothingToDo}</p>}
      <ol>
        {steps.map(({ at, said }, i) => (
          <li>
            <time dateTime={at}>{whenOf(at, today)}</time>
            <span>
              {said}
              {i === 0 && <small> {words.inTime(Math.round((millisOf(at) - now) / 60_000))}</small>}
            </span>
          </li>
        ))}
      </ol>
    </section>
  );
}
