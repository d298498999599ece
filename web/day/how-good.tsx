/** How good the plan is, live while the search runs, and the button that stops it. */
import type { SearchAnswer } from "../../api/contract/searching.ts";
import { money, rounded } from "../parts/figures.ts";
import { isRunning, stop } from "../shell/live.ts";
import { words } from "../shell/words-en.ts";

/** What is proven about the plan, in words; null: nothing yet. */
export function goodness({ cost, bestPossibleCost, plan }: SearchAnswer): string | null {
  if (cost === null) return null;
  if (plan?.search.status === "proven") return words.good.proven;
  if (bestPossibleCost === null || bestPossibleCost <= 0) return words.good.noBound;
  const percent = Math.max(0, (cost / bestPossibleCost - 1) * 100);
  return words.good.atMost(rounded(Math.ceil(percent * 10) / 10, 1));
}

export function HowGood({ search, currency }: { readonly search: SearchAnswer; readonly currency: string }) {
  const running = isRunning(search);
  const said = [running ? words.good.searching : null, goodness(search)].filter((part) => part !== null);
  const steps = search.plan?.search.steps ?? null;
  return (
    <section class="card">
      <h2>{words.good.title}</h2>
      <p class="figure" role="status">
        {said.join(": ")}
      </p>
      <dl>
        <div>
          <dt>{words.good.cost}</dt>
          <dd>{search.cost === null ? words.none : money(search.cost, currency)}</dd>
        </div>
        <div>
          <dt>{words.good.bound}</dt>
          <dd>{search.bestPossibleCost ? money(search.bestPossibleCost, currency) : words.none}</dd>
        </div>
        <div>
          <dt>{words.good.seconds}</dt>
          <dd>{rounded(search.seconds, 1)} s</dd>
        </div>
        <div>
          <dt>{words.good.steps}</dt>
          <dd>{steps === null ? words.none : rounded(steps)}</dd>
        </div>
      </dl>
      <p class="buttons">{running && <button onClick={() => void stop(search.id)}>{words.good.stop}</button>}</p>
      {search.problem !== null && <p class="wrong">{search.problem}</p>}
    </section>
  );
}
