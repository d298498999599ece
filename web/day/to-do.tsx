/** What people do after the next step, at the ovens, the benches and the booth, and by when. */
import { whenOf } from "../parts/clock.ts";
import { words } from "../shell/words-en.ts";
import type { Step } from "./next-steps.ts";

interface ToDoParts {
  readonly steps: readonly Step[];
  /** An instant of the day shown: of another day the date is told too. */
  readonly today: string;
}

export function ToDo({ steps, today }: ToDoParts) {
  return (
    <section class="to-do">
      <h2>{words.day.afterThat}</h2>
      {steps.length === 0 && <p class="empty">{words.day.nothingToDo}</p>}
      <ol>
        {steps.map(({ at, said }) => (
          <li>
            <time dateTime={at}>{whenOf(at, today)}</time>
            <span>{said}</span>
          </li>
        ))}
      </ol>
      <p class="buttons">
        <a class="button second" href="#/happened">
          {words.happened.open}
        </a>
      </p>
    </section>
  );
}
