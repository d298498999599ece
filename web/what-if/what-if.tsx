/** What if? A few variants of the rest of the day, side by side with the day as it stands; nothing is saved. */
import { useEffect, useState } from "preact/hooks";
import type { DayFile } from "../../api/contract/day.ts";
import type { WhatIf as WhatIfRead } from "../../api/contract/what-if.ts";
import { ChoiceField } from "../parts/field.tsx";
import { Notice } from "../parts/notice.tsx";
import { attempt } from "../shell/live.ts";
import { readDay, saidOf } from "../shell/service.ts";
import { words } from "../shell/words-en.ts";
import { SideBySide } from "./side-by-side.tsx";
import { askWhatIf, followWhatIf, shelfOptions, stopWhatIf, usualOptions } from "./variants.ts";

export function WhatIf() {
  const w = words.whatIf;
  const [day, setDay] = useState<DayFile | null>(null);
  const [off, setOff] = useState<ReadonlySet<string>>(new Set());
  const [shelf, setShelf] = useState("");
  const [read, setRead] = useState<WhatIfRead | null>(null);
  const [said, setSaid] = useState("");
  useEffect(() => void attempt(async () => setDay(await readDay())), []);
  const trouble = (error: unknown): void => setSaid(saidOf(error));
  const id = read?.id;
  useEffect(() => (id === undefined ? undefined : followWhatIf(id, setRead, trouble)), [id]);
  const isWorking = read?.state === "searching";
  const usual = day === null ? [] : usualOptions(day);
  const shelves = day === null ? [] : shelfOptions(day);
  const variants = [...usual.filter((one) => !off.has(one.id)), ...shelves.filter((one) => one.id === shelf)].map(
    ({ variant }) => variant,
  );
  const send = (event: SubmitEvent): void => {
    event.preventDefault();
    setSaid("");
    askWhatIf(variants).then(setRead, trouble);
  };
  const turn = (option: string): void => {
    const next = new Set(off);
    if (!next.delete(option)) next.add(option);
    setOff(next);
  };
  return (
    <>
      <h1>{w.title}</h1>
      <p>{w.lead}</p>
      <form onSubmit={send}>
        <fieldset>
          <legend>{w.pick}</legend>
          {usual.map((one) => (
            <label class="tick">
              <input type="checkbox" checked={!off.has(one.id)} onChange={() => turn(one.id)} />
              {one.said}
            </label>
          ))}
        </fieldset>
        <p class="fine">{w.slackWhy}</p>
        {shelves.length > 0 && (
          <div class="fields two">
            <ChoiceField
              label={w.shelf}
              value={shelf}
              options={[["", w.noShelf], ...shelves.map(({ id: one, said: name }) => [one, name] as const)]}
              onChange={setShelf}
            />
          </div>
        )}
        <p class="buttons">
          <button disabled={day === null || isWorking || variants.length === 0}>{w.ask}</button>
          {isWorking && (
            <button type="button" class="second" onClick={() => void stopWhatIf(read.id).then(setRead, trouble)}>
              {w.stop}
            </button>
          )}
        </p>
      </form>
      <div class="toldroom">
        {said !== "" && <Notice kind="alert">{said}</Notice>}
        {read !== null && <Notice kind="status">{progressOf(read)}</Notice>}
      </div>
      {read !== null && day !== null && <SideBySide read={read} day={day} />}
    </>
  );
}

function progressOf(read: WhatIfRead): string {
  const w = words.whatIf;
  if (read.state !== "searching") return read.state === "done" ? w.done : w.stopped;
  const cases = [read.base, ...read.variants];
  return w.working(cases.filter(({ state }) => state === "done" || state === "failed").length, cases.length);
}
