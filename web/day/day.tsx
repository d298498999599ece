/** The day: what to do next, the clock, the loads, and how good the plan is. */
import { clockOf, dateOf, millisOf } from "../parts/clock.ts";
import { DayClock } from "./day-clock.tsx";
import type { Planned } from "../parts/day-lookup.ts";
import { HowGood } from "./how-good.tsx";
import { nextSteps } from "./next-steps.ts";
import { Cautions, Gas, Loads, Promises } from "./plan-parts.tsx";
import { accept, plan, stop } from "../shell/live.ts";
import type { ScreenParts } from "../shell/screens.tsx";
import { words } from "../shell/words-en.ts";

export function Day({ live: { search, day, isRead }, now }: ScreenParts) {
  if (search === null || day === null || search.plan === null)
    return <NoPlan isRead={isRead} problem={search?.problem ?? null} />;
  const planned = { plan: search.plan, day };
  return (
    <>
      <h1>{planned.plan.dayTitle || words.today}</h1>
      <div class="pair">
        <Next planned={planned} now={now} />
        <HowGood
          search={search}
          currency={day.currency ?? "EUR"}
          onStop={() => void stop(search.id)}
          onAccept={() => void accept(search.id)}
        />
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

function NoPlan({ isRead, problem }: { readonly isRead: boolean; readonly problem: string | null }) {
  return (
    <>
      <h1>{words.today}</h1>
      <p>{isRead ? (problem ?? words.noPlan) : words.loading}</p>
      {isRead && <button onClick={() => void plan("day")}>{words.planNow}</button>}
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
