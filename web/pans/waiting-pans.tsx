/** The pans: what waits, what happened to each, one more by hand or many by a list, and the buttons that plan. */
import { useEffect, useState } from "preact/hooks";
import type { DayFile } from "../../api/contract/day.ts";
import { Notice } from "../parts/notice.tsx";
import { inUnits } from "../parts/said.ts";
import { localIn, localOf } from "../parts/zone.ts";
import { report } from "../shell/day-service.ts";
import { attempt, plan } from "../shell/live.ts";
import type { ScreenParts } from "../shell/screens.tsx";
import { addPan, readDay, readPans, saidOf } from "../shell/service.ts";
import type { ListedPan } from "../shell/service.ts";
import { words } from "../shell/words-en.ts";
import { newDraft, nextDraft, panOfDraft } from "./draft.ts";
import type { Draft } from "./draft.ts";
import { ImportPans } from "./import-pans.tsx";
import { PanActions } from "./pan-actions.tsx";
import { PanForm } from "./pan-form.tsx";
import { PanList } from "./pan-list.tsx";
import { panRows } from "./pan-rows.ts";

type Told = { readonly kind: "status" | "alert"; readonly said: string } | null;

export function WaitingPans({ live, now }: ScreenParts) {
  const w = words.pans;
  const [day, setDay] = useState<DayFile | null>(null);
  const [pans, setPans] = useState<readonly ListedPan[]>([]);
  const [draft, setDraft] = useState<Draft | null>(null);
  const [chosen, setChosen] = useState<string | null>(null);
  const [told, setTold] = useState<Told>(null);
  const [isBusy, setBusy] = useState(false);
  const [isAdding, setAdding] = useState(false);
  const read = async (): Promise<DayFile> => {
    const [found, list] = await Promise.all([readDay(), readPans()]);
    setDay(found);
    setPans(list.pans);
    setDraft((before) => before ?? newDraft(found, readyFrom(found, Date.now())));
    return found;
  };
  useEffect(() => void attempt(read), [live.turn]);
  const run = (said: string, work: () => Promise<unknown>): Promise<boolean> => {
    setBusy(true);
    return work()
      .then(
        () => {
          setTold({ kind: "status", said });
          return true;
        },
        (trouble: unknown) => {
          setTold({ kind: "alert", said: saidOf(trouble) });
          return false;
        },
      )
      .finally(() => setBusy(false));
  };
  const add = (): void => {
    if (draft === null) return;
    const pan = panOfDraft(draft);
    void run(w.added(pan.id), async () => {
      await addPan(pan);
      const found = await read();
      setDraft(nextDraft(found, draft));
    });
  };
  const rows = panRows(pans, live.loads, now);
  const row = rows.find(({ pan }) => pan.id === chosen);
  return (
    <>
      <h1>{words.screens.pans}</h1>
      <div class="buttons">
        <button class={isAdding ? "second" : undefined} aria-expanded={isAdding} onClick={() => setAdding(!isAdding)}>
          {isAdding ? w.addDone : w.addTitle}
        </button>
        <button class="second" disabled={pans.length === 0} onClick={() => planAndShow("day")}>
          {w.planDay}
        </button>
        <button class="second" disabled={pans.length === 0} onClick={() => planAndShow("now")}>
          {w.planLeft}
        </button>
      </div>
      <div class="toldroom">{told !== null && <Notice kind={told.kind}>{inUnits(told.said)}</Notice>}</div>
      {isAdding && day !== null && draft !== null && (
        <PanForm day={day} draft={draft} isBusy={isBusy} onDraft={setDraft} onAdd={add} />
      )}
      <ImportPans onAdded={(said) => void run(said, read)} />
      {row !== undefined && day !== null && (
        <PanActions
          row={row}
          coats={(day.coatings.find(({ id }) => id === row.pan.coating)?.coats ?? []).map(
            ({ name }, i) => name ?? w.coat(i + 1),
          )}
          isBusy={isBusy}
          onLeave={() => setChosen(null)}
          onReport={(happened, said) =>
            void run(said, async () => {
              await report(happened);
              setChosen(null);
              await read();
            })
          }
        />
      )}
      {day !== null && (
        <PanList day={day} rows={rows} chosen={chosen} onChoose={(id) => setChosen(id === chosen ? null : id)} />
      )}
    </>
  );
}

/** A pan entered before the day begins is ready when it does. */
function readyFrom(day: DayFile, now: number): string {
  const here = localIn(day.timeZone, now);
  const begins = localOf(day.timeZone, day.planFrom);
  return here > begins ? here : begins;
}

function planAndShow(from: "day" | "now"): void {
  void plan(from).then((isPlanned) => {
    if (isPlanned) location.hash = "#/";
  });
}
