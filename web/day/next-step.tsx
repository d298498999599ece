/** What is to be done next and by when, in letters that are read across the room. */
import { millisOf, whenOf } from "../parts/clock.ts";
import { words } from "../shell/words-en.ts";
import type { Step } from "./next-steps.ts";

interface NextParts {
  /** Undefined: every time of the plan has passed. */
  readonly step: Step | undefined;
  readonly now: number;
}

export function NextStep({ step, now }: NextParts) {
  return (
    <section class="nextstep" aria-labelledby="next-step">
      <div>
        <h2 id="next-step">{words.day.nextStep}</h2>
        {step !== undefined && <small>{words.inTime(Math.round((millisOf(step.at) - now) / 60_000))}</small>}
      </div>
      {step === undefined ? (
        <p>{words.day.allPassed}</p>
      ) : (
        <p>
          <time dateTime={step.at}>{whenOf(step.at, step.at)}</time> <span>{step.said}</span>
        </p>
      )}
    </section>
  );
}
