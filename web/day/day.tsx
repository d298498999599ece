/** The first screen, for the wall: what is in the oven, what goes in next, what to do by when; the day on one clock. */
import { useMemo } from "preact/hooks";
import type { SearchAnswer } from "../../api/contract/searching.ts";
import { dayOf } from "../parts/clock.ts";
import { Cautions } from "../parts/cautions.tsx";
import type { Planned } from "../parts/day-lookup.ts";
import { shownLoads } from "../parts/shown-loads.ts";
import { useUnits } from "../parts/units.ts";
import { isRunning, plan } from "../shell/live.ts";
import type { Live } from "../shell/live.ts";
import type { ScreenParts } from "../shell/screens.tsx";
import { words } from "../shell/words-en.ts";
import { DayClock } from "./day-clock.tsx";
import { GasCard } from "./gas-card.tsx";
import { HowGood } from "./how-good.tsx";
import { LateCard } from "./late-card.tsx";
import { LoadsTable } from "./loads-table.tsx";
import { OvenCard } from "./oven-card.tsx";
import { NextStep } from "./next-step.tsx";
import { nextSteps } from "./next-steps.ts";
import { NotInForce } from "./not-in-force.tsx";
import { ToDo } from "./to-do.tsx";

/** The next one large, the others in a list beside the ovens. */
const stepsShown = 6;

export function Day({ live, now }: ScreenParts) {
  const { search, day } = live;
  if (search === null || day === null || search.plan === null) return <NoPlan isRead={live.isRead} search={search} />;
  return <PlannedDay live={live} now={now} search={search} planned={{ plan: search.plan, day }} />;
}

interface PlannedParts {
  readonly live: Live;
  readonly now: number;
  readonly search: SearchAnswer;
  readonly planned: Planned;
}

function PlannedDay({ live, now, search, planned }: PlannedParts) {
  const { day, plan: found } = planned;
  const units = useUnits();
  const loads = useMemo(() => shownLoads(live, search), [live.loads, found, search.inForce]);
  const [next, ...later] = nextSteps(planned, loads, now, stepsShown);
  const late = found.tickets.filter(({ lateMinutes }) => lateMinutes > 0).length;
  // Long, and the same from one second to the next.
  const below = useMemo(
    () => (
      <>
        <Cautions said={found.cautions} />
        <LoadsTable planned={planned} loads={loads} />
      </>
    ),
    [found, loads, units],
  );
  return (
    <>
      <header class="dayhead">
        <h1>{found.dayTitle || words.screens.day}</h1>
        <p>{dayOf(found.loads[0]?.doorOpensAt ?? found.madeAt)}</p>
        <p class={late > 0 ? "lateflag wrong" : "lateflag"}>{late === 0 ? words.late.none : words.late.many(late)}</p>
        {!search.inForce && <NotInForce search={search} day={day} live={live} now={now} />}
      </header>
      <NextStep step={next} now={now} />
      <div class="now-and-next">
        <div class="ovens">
          {day.ovens.map((oven) => (
            <OvenCard oven={oven} loads={loads} live={live} day={day} now={now} />
          ))}
        </div>
        <ToDo steps={later} today={next?.at ?? found.madeAt} />
      </div>
      <DayClock planned={planned} loads={loads} now={now} />
      <div class="cards">
        <HowGood search={search} day={day} />
        <LateCard planned={planned} />
        <GasCard planned={planned} loads={loads} now={now} />
      </div>
      {below}
    </>
  );
}

function NoPlan({ isRead, search }: { readonly isRead: boolean; readonly search: SearchAnswer | null }) {
  const running = search !== null && isRunning(search);
  const said = !isRead ? words.day.loading : running ? words.day.firstPlan : (search?.problem ?? words.day.noPlan);
  return (
    <>
      <h1>{words.screens.day}</h1>
      <p>{said}</p>
      {isRead && !running && (
        <p class="buttons">
          <button onClick={() => void plan("day")}>{words.day.planDay}</button>
          <a class="button second" href="#/pans">
            {words.screens.pans}
          </a>
        </p>
      )}
    </>
  );
}
