/** Close of day: what closing would record, the meter, closing it, and the days closed before. */
import { useEffect, useState } from "preact/hooks";
import { Notice } from "../parts/notice.tsx";
import type { DayFile } from "../../api/contract/day.ts";
import { attempt, refresh } from "../shell/live.ts";
import type { ScreenParts } from "../shell/screens.tsx";
import { readDay, saidOf } from "../shell/service.ts";
import { words } from "../shell/words-en.ts";
import { CloseButton } from "./close-button.tsx";
import { ClosedDayShown, ClosedDays } from "./closed-days.tsx";
import { closeDay, closedDays, previewClose } from "./days.ts";
import type { ClosePreview, ClosedDay } from "./days.ts";
import { Log } from "./log.tsx";
import { MeterForm } from "./meter-form.tsx";
import { Saved } from "./saved.tsx";
import { Firings, Summary } from "./summary.tsx";

export function Close({ live, now, rest }: ScreenParts) {
  return rest === "" ? <CloseToday live={live} now={now} /> : <ClosedDayShown id={rest} />;
}

interface Read {
  readonly day: DayFile;
  readonly preview: ClosePreview;
  readonly days: readonly ClosedDay[];
}

function CloseToday({ live, now }: Pick<ScreenParts, "live" | "now">) {
  const w = words.close;
  const [read, setRead] = useState<Read | null>(null);
  const [told, setTold] = useState<{ kind: "status" | "alert"; said: string } | null>(null);
  const look = (): Promise<boolean> =>
    attempt(async () => {
      const [day, preview, days] = await Promise.all([readDay(), previewClose(), closedDays()]);
      setRead({ day, preview, days });
    });
  useEffect(() => void look(), [live.turn]);
  const run = (work: () => Promise<string>): void => {
    work().then(
      (said) => {
        setTold({ kind: "status", said });
        void look();
      },
      (trouble: unknown) => setTold({ kind: "alert", said: saidOf(trouble) }),
    );
  };
  const close = (): void =>
    run(async () => {
      const { title } = await closeDay();
      await refresh();
      return w.closed(title === "" ? w.untitled : title);
    });
  return (
    <>
      <h1>{w.title}</h1>
      <p>{w.lead}</p>
      <div class="toldroom">{told !== null && <Notice kind={told.kind}>{told.said}</Notice>}</div>
      {read !== null && (
        <>
          <h2>{w.today}</h2>
          {read.preview.summary.loads === 0 && <p>{w.nothing}</p>}
          <Summary summary={read.preview.summary} meter={<MeterForm day={read.day} onKeep={run} />} />
          <Saved ofDay={read.preview.summary.saved} spans={read.preview} currency={read.day.currency ?? "EUR"} />
          <Firings summary={read.preview.summary} />
          <Log events={live.events} timeZone={read.day.timeZone} now={now} />
          <CloseButton onClose={close} />
          <ClosedDays days={read.days} timeZone={read.day.timeZone} />
        </>
      )}
    </>
  );
}
