/** A plan that waits to be taken: used as it is, planned again where the day has moved on, left for the plan in use. */
import type { DayFile } from "../../api/contract/day.ts";
import type { SearchAnswer } from "../../api/contract/searching.ts";
import { Notice } from "../parts/notice.tsx";
import { localIn, localOf } from "../parts/zone.ts";
import { isOutdated } from "../shell/events.ts";
import { accept, dismiss, isRunning, plan } from "../shell/live.ts";
import type { Live } from "../shell/live.ts";
import { words } from "../shell/words-en.ts";

interface NotInForceParts {
  readonly search: SearchAnswer;
  /** That it was planned from. */
  readonly day: DayFile;
  readonly live: Live;
  readonly now: number;
}

export function NotInForce({ search, day, live, now }: NotInForceParts) {
  const hasChanged = isOutdated(search, live.events);
  const isOver = !isRunning(search);
  // A day file that is put in ends the plan in force, and its loads go with it.
  const hasOneInUse = search.replaces !== null && live.loads.length > 0;
  const from = hasOneInUse || isOfTheRest(search, day, now) ? "now" : "day";
  return (
    <Notice kind="status">
      <strong>{words.day.notInForce}</strong>
      {hasChanged && <span>{words.day.outdated}</span>}
      <span class="buttons">
        <button class={hasChanged ? "second" : undefined} onClick={() => void accept(search.id)}>
          {words.day.accept}
        </button>
        {isOver && (
          <button class={hasChanged ? undefined : "second"} onClick={() => void plan(from)}>
            {from === "now" ? words.pans.planLeft : words.pans.planDay}
          </button>
        )}
        {isOver && hasOneInUse && (
          <button class="second" onClick={() => void dismiss(search.id)}>
            {words.day.dismiss}
          </button>
        )}
      </span>
    </Notice>
  );
}

/**
 * A plan that begins no sooner than it was asked for is of what was left then, or its day has begun meanwhile. A day still to
 * begin, or planned looking back, is planned as a whole.
 */
function isOfTheRest({ madeAt }: SearchAnswer, { planFrom, timeZone }: DayFile, now: number): boolean {
  const begins = localOf(timeZone, planFrom);
  return begins >= localOf(timeZone, madeAt) && begins <= localIn(timeZone, now + 60_000);
}
