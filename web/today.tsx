/** The day: what to do next, the clock, the loads, and how good the plan is. */
import type { SearchAnswer } from "../api/contract/searching.ts";
import { clockOf, dateOf, millisOf } from "./clock.ts";
import { DayClock } from "./day-clock.tsx";
import type { Planned } from "./day-lookup.ts";
import { HowGood } from "./how-good.tsx";
import { nextSteps } from "./next-steps.ts";
import { Cautions, Gas, Loads, Promises } from "./plan-parts.tsx";
import { words } from "./words-en.ts";

interface TodayParts {
  readonly search: SearchAnswer;
  readonly planned: Planned;
  readonly now: number;
  readonly onStop: () => void;
  readonly onAccept: () => void;
}

export function Today({ search, planned, now, onStop, onAccept }: TodayParts) {
  return (
    <>
      <h1>{planned.plan.dayTitle || words.today}</h1>
      <div class="pair">
        <Next planned={planned} now={now} />
        <HowGood search={search} currency={planned.day.currency ?? "EUR"} onStop={onStop} onAccept={onAccept} />
      </div>
      <DayClock planned={planned} now={now} />
      <Loads planned={planned} />
      <div class="pair">
        <Promises planned={planned} />
        <Gas planned={planned} />
      </div>
      <Cautions planned={planned} />
    </>
  );
}

function Next({ planned, now }: { readonly planned: Planned; readonly now: number }) {
  const [first, ...others] = nextSteps(planned, now, 4);
  if (first === undefined)
    return (
      <section class="next">
        <h2>{words.next}</h2>
        <p>{words.nothingNext}</p>
      </section>
    );
  const minutes = Math.round((millisOf(first.at) - now) / 60_000);
  return (
    <section class="next">
      <h2>{words.next}</h2>
      <p class="big">{first.said}</p>
      <p class="big time">{words.by(minutes < 720 ? clockOf(first.at) : `${dateOf(first.at)} ${clockOf(first.at)}`)}</p>
      {minutes < 720 && <p>{words.inMinutes(minutes)}</p>}
      <ol>
        {others.map(({ at, said }) => (
          <li>
            {clockOf(at)} {said}
          </li>
        ))}
      </ol>
    </section>
  );
}
