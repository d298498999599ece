/** The four moments of a firing as they are reported at the oven, each taken back by its undo. */
import { useState } from "preact/hooks";
import type { Logged } from "../../api/contract/happened.ts";
import { clockAt } from "../parts/clock.ts";
import { Notice } from "../parts/notice.tsx";
import { inUnits } from "../parts/said.ts";
import { happenedAt, reportOf } from "../shell/events.ts";
import type { LoadReport } from "../shell/events.ts";
import { report, undo } from "../shell/day-service.ts";
import { attempt, refresh } from "../shell/live.ts";
import type { Live } from "../shell/live.ts";
import { words } from "../shell/words-en.ts";
import type { Ticks } from "./gates.tsx";
import type { SheetPart } from "./load-sheet.tsx";

interface ReportsParts extends SheetPart {
  readonly live: Live;
  readonly ticks: Ticks;
}

const kinds = ["load-opened", "load-closed", "burner-off", "load-out"] as const satisfies readonly LoadReport[];
/** For what was done first and reported after. */
const minutesAgo = [0, 2, 5, 10, 20, 30] as const;

export function Reports({ planned: { day }, one: { load, note, state }, live, ticks }: ReportsParts) {
  const [ago, setAgo] = useState(0);
  const [busy, setBusy] = useState(false);
  /** What the newest report means for the pans. */
  const [notes, setNotes] = useState<readonly string[]>([]);
  const steps = load.burnerOffAt === null ? kinds.filter((kind) => kind !== "burner-off") : kinds;
  const reports = steps.map((kind) => reportOf(live.events, load.id, kind));
  const newest = reports.reduce((id, one) => Math.max(id, one?.id ?? 0), 0);
  const last = reports.findLastIndex((one) => one !== undefined);
  const run = (work: () => Promise<unknown>): void => {
    setBusy(true);
    setNotes([]);
    void attempt(work)
      .then(refresh)
      .finally(() => setBusy(false));
  };
  const say = (kind: LoadReport): void =>
    run(async () => {
      const at = ago === 0 ? {} : { at: new Date(Date.now() - ago * 60_000).toISOString() };
      const told = await report({
        kind,
        load: load.id,
        ...at,
        ...(kind === "load-closed" ? { note: ticks.ticked.join(", ") } : {}),
      });
      setAgo(0);
      setNotes(told.notes);
    });
  return (
    <section class="reports screen-only" aria-label={words.sheet.reports}>
      {state === "interrupted" && <p class="wrong">{words.sheet.interrupted(note)}</p>}
      <div class="steps">
        {steps.map((kind, i) => (
          <Step
            kind={kind}
            said={reports[i]}
            timeZone={day.timeZone}
            canSay={!busy && i > last && (i === last + 1 || i > 1) && canFollow(kind, reports[0], ticks)}
            canUndo={!busy && reports[i]?.id === newest}
            onSay={() => say(kind)}
            onUndo={(id) => run(() => undo(id))}
          />
        ))}
      </div>
      {notes.length > 0 && (
        <Notice kind="alert">
          {notes.map((note) => (
            <p>{inUnits(note)}</p>
          ))}
        </Notice>
      )}
      {!ticks.areComplete && reports[1] === undefined && <p class="fine">{words.sheet.tickFirst}</p>}
      <fieldset class="ago">
        <legend>{words.sheet.whenDone}</legend>
        {minutesAgo.map((minutes) => (
          <label class="tick">
            <input type="radio" name="ago" checked={ago === minutes} onChange={() => setAgo(minutes)} />
            {words.sheet.ago(minutes)}
          </label>
        ))}
      </fieldset>
    </section>
  );
}

/** Nothing is marked closed while a tick is missing; nothing follows a door that was not opened. */
function canFollow(kind: LoadReport, opened: Logged | undefined, ticks: Ticks): boolean {
  if (kind === "load-opened") return true;
  return opened !== undefined && (kind !== "load-closed" || ticks.areComplete);
}

interface StepParts {
  readonly kind: LoadReport;
  readonly said: Logged | undefined;
  readonly timeZone: string;
  readonly canSay: boolean;
  readonly canUndo: boolean;
  readonly onSay: () => void;
  readonly onUndo: (event: number) => void;
}

function Step({ kind, said, timeZone, canSay, canUndo, onSay, onUndo }: StepParts) {
  if (said === undefined)
    return (
      <button disabled={!canSay} onClick={onSay}>
        {words.sheet.step[kind]}
      </button>
    );
  return (
    <p class="said">
      <span role="status">
        {words.sheet.saidAt(words.sheet.step[kind], clockAt(timeZone, happenedAt(said)))}
        {said.who !== "" && <small> {said.who}</small>}
      </span>
      <button class="second" disabled={!canUndo} onClick={() => onUndo(said.id)}>
        {words.sheet.undo}
        <span class="aloud"> {words.sheet.step[kind]}</span>
      </button>
    </p>
  );
}
