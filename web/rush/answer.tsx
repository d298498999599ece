/** The one answer to a rush: when, what to promise, who slips, what it takes, what to charge. */
import type { ComponentChildren } from "preact";
import { whenOf } from "../parts/clock.ts";
import { gas, money, rounded } from "../parts/figures.ts";
import { Notice } from "../parts/notice.tsx";
import { inUnits } from "../parts/said.ts";
import { PansMoved, TicketsMoved } from "../parts/plan-difference.tsx";
import { isRunning } from "../shell/live.ts";
import { words } from "../shell/words-en.ts";
import type { QuoteAnswer } from "./quotes.ts";

interface AnswerParts {
  readonly answer: QuoteAnswer;
  readonly currency: string;
  readonly timeZone: string;
  /** True: it came between the figures seen and the press of the button, and nobody has agreed to it yet. */
  readonly isFresh: boolean;
  readonly isTaking: boolean;
  readonly onAccept: () => void;
  readonly onDrop: () => void;
}

export function Answer({ answer, currency, timeZone, isFresh, isTaking, onAccept, onDrop }: AnswerParts) {
  const w = words.rush;
  const { quote, difference } = answer;
  const at = (instant: string): string => whenOf(instant, difference?.asOf ?? answer.madeAt);
  const running = isRunning(answer);
  return (
    <section class="answer" aria-labelledby="answer">
      <h2 id="answer" tabIndex={-1}>
        {w.answer}
      </h2>
      {isFresh && <Notice kind="alert">{w.better}</Notice>}
      <p class="headline" role="status">
        {quote === null
          ? (answer.problem ?? w.asking)
          : quote.promiseAt === null || quote.earliestReadyAt === null
            ? inUnits(quote.words[0] ?? "")
            : w.headline(at(quote.earliestReadyAt), at(quote.promiseAt))}
      </p>
      {quote !== null && (
        <>
          <dl class="figures">
            <Fact name={w.earliest}>{quote.earliestReadyAt === null ? w.notToday : at(quote.earliestReadyAt)}</Fact>
            <Fact name={w.promise}>{quote.promiseAt === null ? words.none : at(quote.promiseAt)}</Fact>
            {quote.wishAt !== null && (
              <Fact name={w.wish}>
                {at(quote.wishAt)}, {quote.wishKept === true ? w.wishKept : w.wishNot}
              </Fact>
            )}
            <Fact name={w.extraGas}>{gas(quote.extraGasKWh)}</Fact>
            <Fact name={w.ovenMinutes}>{w.minutes(rounded(quote.extraOvenMinutes))}</Fact>
            <Fact name={quote.extraMoney < 0 ? w.lessMoney : w.extraMoney}>
              {money(Math.abs(quote.extraMoney), currency)}
            </Fact>
            <Fact name={w.surcharge}>{money(quote.suggestedSurcharge, currency)}</Fact>
          </dl>
          <p class="fine">{running ? w.still : w.settled}</p>
        </>
      )}
      <p class="buttons">
        {quote !== null && quote.promiseAt !== null && (
          <button disabled={isTaking} onClick={onAccept}>
            {isFresh ? w.acceptFresh : w.accept}
          </button>
        )}
        <button class="second" disabled={isTaking} onClick={onDrop}>
          {w.drop}
        </button>
      </p>
      {quote !== null && (
        <>
          <h3>{w.slips}</h3>
          {quote.slips.length === 0 || difference === null ? (
            <p>{w.nobody}</p>
          ) : (
            <TicketsMoved
              caption={w.slips}
              asOf={difference.asOf}
              timeZone={timeZone}
              tickets={difference.tickets.filter((one) => quote.slips.some(({ ticket }) => ticket === one.ticket))}
            />
          )}
        </>
      )}
      {quote !== null && (
        <details>
          <summary>{w.inWords}</summary>
          <ul>
            {quote.words.map((sentence) => (
              <li>{inUnits(sentence)}</li>
            ))}
          </ul>
        </details>
      )}
      {difference !== null && (
        <>
          <h3>{w.difference}</h3>
          <PansMoved difference={difference} />
        </>
      )}
    </section>
  );
}

function Fact({ name, children }: { readonly name: string; readonly children: ComponentChildren }) {
  return (
    <div>
      <dt>{name}</dt>
      <dd>{children}</dd>
    </div>
  );
}
