/** What happened to a pan: ready, failed and why, held, withdrawn. Each is reported to the service as an event. */
import { useLayoutEffect, useRef, useState } from "preact/hooks";
import { ChoiceField, FigureField, TextField } from "../parts/field.tsx";
import type { Report } from "../shell/day-service.ts";
import { words } from "../shell/words-en.ts";
import type { PanRow } from "./pan-rows.ts";

interface ActionParts {
  readonly row: PanRow;
  readonly coats: readonly string[];
  readonly isBusy: boolean;
  readonly onReport: (report: Report, said: string) => void;
  readonly onLeave: () => void;
}

const usualStripMinutes = 45;

export function PanActions({ row: { pan, state }, coats, isBusy, onReport, onLeave }: ActionParts) {
  const w = words.pans;
  const [cause, setCause] = useState("");
  const [stripMinutes, setStripMinutes] = useState<number | null>(usualStripMinutes);
  const [why, setWhy] = useState("");
  const [which, setWhich] = useState("");
  const top = useRef<HTMLHeadingElement>(null);
  useLayoutEffect(() => top.current?.focus(), [pan.id]);
  const quantity = pan.quantity ?? 1;
  const id = which === "" ? pan.id : `${pan.id}.${which}`;
  const isHere = state === "waiting" || state === "on hold";
  return (
    <section class="panactions" aria-labelledby="pan-actions">
      <h2 id="pan-actions" tabIndex={-1} ref={top}>
        {w.whatHappened(pan.id)}
      </h2>
      {quantity > 1 && (
        <div class="fields">
          <ChoiceField label={w.which} value={which} options={piecesOf(quantity)} onChange={setWhich} />
        </div>
      )}
      {isHere && (
        <div class="buttons">
          <button disabled={isBusy} onClick={() => onReport({ kind: "pan-ready", pan: id }, w.said.ready(id))}>
            {w.readyNow}
          </button>
        </div>
      )}
      {state === "waiting" && (
        <form
          class="oneline"
          onSubmit={(event) => {
            event.preventDefault();
            onReport({ kind: "pan-held", pan: id, note: why }, w.said.held(id));
          }}
        >
          <TextField label={w.holdWhy} value={why} onChange={setWhy} optional />
          <button class="second" disabled={isBusy}>
            {w.hold}
          </button>
        </form>
      )}
      {state !== "withdrawn" && state !== "handed over" && (
        <form
          onSubmit={(event) => {
            event.preventDefault();
            onReport({ kind: "pan-failed", pan: id, cause, stripMinutes: stripMinutes ?? 0 }, w.said.failed(id, cause));
          }}
        >
          <h3>{w.failed}</h3>
          <div class="chips" role="group" aria-label={w.cause}>
            {w.causes.map((one) => (
              <button type="button" class="second" aria-pressed={cause === one} onClick={() => setCause(one)}>
                {one}
              </button>
            ))}
          </div>
          <div class="fields">
            <TextField label={w.cause} value={cause} onChange={setCause} />
            <FigureField
              label={w.strip}
              unit={words.minutesUnit}
              value={stripMinutes}
              onChange={setStripMinutes}
              whole
              least={0}
              most={600}
              why={w.stripWhy(coats[0] ?? "1")}
            />
          </div>
          <button disabled={isBusy}>{w.reportFailed}</button>
        </form>
      )}
      <div class="buttons">
        {isHere && (
          <button
            class="second"
            disabled={isBusy}
            onClick={() => onReport({ kind: "pan-withdrawn", pan: id }, w.said.withdrawn(id))}
          >
            {w.withdraw}
          </button>
        )}
        <button class="second" onClick={onLeave}>
          {w.leave}
        </button>
      </div>
    </section>
  );
}

/** Of alike pans the service tells K-1.2 from K-1.1. */
function piecesOf(quantity: number): (readonly [string, string])[] {
  const pieces = Array.from({ length: quantity }, (_, i) => [String(i + 1), words.pans.piece(i + 1)] as const);
  return [["", words.pans.allPieces(quantity)], ...pieces];
}
