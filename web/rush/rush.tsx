/** A rush at the counter: three questions, one answer; nothing is taken until it is accepted. */
import { useEffect, useLayoutEffect, useRef, useState } from "preact/hooks";
import type { DayFile } from "../../api/contract/day.ts";
import type { Problem } from "../../api/contract/problem.ts";
import { whenOf } from "../parts/clock.ts";
import { Notice } from "../parts/notice.tsx";
import { inUnits } from "../parts/said.ts";
import { refresh } from "../shell/live.ts";
import { Refused, saidOf, stopSearch } from "../shell/service.ts";
import { words } from "../shell/words-en.ts";
import { Answer } from "./answer.tsx";
import { JobForm } from "./job-form.tsx";
import { newJob, pansOf } from "./job.ts";
import type { Job } from "./job.ts";
import { askQuote, followQuote, promiseOf, readDay, takeQuote } from "./quotes.ts";
import type { QuoteAnswer } from "./quotes.ts";

/** What the counter was told last. */
type Told =
  | { readonly kind: "nothing" }
  | { readonly kind: "trouble"; readonly said: string; readonly problems: readonly Problem[] }
  | { readonly kind: "dropped" }
  /** A better plan came between the figures seen and the press of the button. */
  | { readonly kind: "better" }
  | { readonly kind: "taken"; readonly ticket: string; readonly promise: string | null };

export function Rush() {
  const [day, setDay] = useState<DayFile | null>(null);
  const [job, setJob] = useState<Job | null>(null);
  const [answer, setAnswer] = useState<QuoteAnswer | null>(null);
  const [busy, setBusy] = useState<"asking" | "taking" | null>(null);
  const [told, setTold] = useState<Told>({ kind: "nothing" });
  const top = useRef<HTMLHeadingElement>(null);
  const wrong = useRef<HTMLDivElement>(null);
  const w = words.rush;
  const trouble = (error: unknown): void =>
    setTold({ kind: "trouble", said: saidOf(error), problems: error instanceof Refused ? error.problems : [] });
  const fresh = (): void =>
    void readDay().then((read) => {
      setDay(read);
      setJob(newJob(read));
    }, trouble);
  useEffect(fresh, []);
  const id = answer?.id;
  useEffect(() => (id === undefined ? undefined : followQuote(id, setAnswer, trouble)), [id]);
  useLayoutEffect(() => {
    if (id !== undefined) document.getElementById("answer")?.focus();
  }, [id]);
  useLayoutEffect(() => {
    if (told.kind === "trouble") wrong.current?.focus();
  }, [told]);
  const toTop = (): void => top.current?.focus();
  const leave = (): void => {
    if (answer !== null) void stopSearch(answer.id).catch(trouble);
    setAnswer(null);
  };

  const run = (doing: "asking" | "taking", work: () => Promise<void>): void => {
    setBusy(doing);
    void work()
      .catch(trouble)
      .finally(() => setBusy(null));
  };
  const ask = (): void => {
    if (job === null || day === null) return;
    run("asking", async () => {
      leave();
      const asked = await askQuote(pansOf(job, day));
      setTold({ kind: "nothing" });
      setAnswer(asked);
    });
  };
  const accept = (): void => {
    if (job === null || answer === null) return;
    run("taking", async () => {
      const better = await takeQuote(answer);
      if (better !== null) {
        setAnswer(better);
        setTold({ kind: "better" });
        document.getElementById("answer")?.focus();
        return;
      }
      const ticket = job.ticket.trim();
      const promise = await promiseOf(ticket);
      setTold({ kind: "taken", ticket, promise: promise === null ? null : whenOf(promise, answer.madeAt) });
      setAnswer(null);
      setJob(null);
      toTop();
      await refresh();
    });
  };
  const drop = (): void => {
    if (answer === null) return;
    run("taking", async () => {
      await stopSearch(answer.id);
      setAnswer(null);
      setTold({ kind: "dropped" });
      toTop();
    });
  };

  return (
    <>
      <h1 tabIndex={-1} ref={top}>
        {w.title}
      </h1>
      <p>{w.lead}</p>
      <div tabIndex={-1} ref={wrong}>
        <ToldNotice told={told} onNext={fresh} />
      </div>
      {day !== null && job !== null && (
        <div class="pair">
          <JobForm
            day={day}
            job={job}
            problems={told.kind === "trouble" ? told.problems : []}
            isAsking={busy === "asking"}
            onJob={(now) => {
              // An answer is to the job as it was asked.
              leave();
              setJob(now);
            }}
            onAsk={ask}
          />
          {answer !== null && (
            <Answer
              answer={answer}
              isFresh={told.kind === "better"}
              currency={day.currency ?? "EUR"}
              timeZone={day.timeZone}
              isTaking={busy === "taking"}
              onAccept={accept}
              onDrop={drop}
            />
          )}
        </div>
      )}
      <p class="fine">{w.caution}</p>
    </>
  );
}

function ToldNotice({ told, onNext }: { readonly told: Told; readonly onNext: () => void }) {
  const w = words.rush;
  switch (told.kind) {
    case "nothing":
    case "better":
      return null;
    case "trouble":
      return <Notice kind="alert">{inUnits(told.said)}</Notice>;
    case "dropped":
      return <Notice kind="status">{w.dropped}</Notice>;
    case "taken":
      return (
        <>
          <Notice kind="status">
            {told.promise === null ? w.takenNone(told.ticket) : w.taken(told.ticket, told.promise)}
          </Notice>
          <p class="buttons">
            <a class="button" href="#/">
              {w.toDay}
            </a>
            <button class="second" onClick={onNext}>
              {w.next}
            </button>
          </p>
        </>
      );
  }
}
