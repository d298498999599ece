/** How good the plan is, live while the search runs, and the buttons that stop it and take its plan. */
import type { SearchAnswer } from "../../api/contract/searching.ts";
import { money, rounded } from "../parts/figures.ts";
import { isRunning } from "../shell/live.ts";
import { words } from "../shell/words-en.ts";

interface HowGoodParts {
  readonly search: SearchAnswer;
  readonly currency: string;
  readonly onStop: () => void;
  readonly onAccept: () => void;
}

/** What is proven about the plan, in words. */
export function goodness({ cost, bestPossibleCost, plan }: SearchAnswer): string | null {
  if (cost === null) return null;
  if (plan?.search.status === "proven") return words.proven;
  if (bestPossibleCost === null || bestPossibleCost <= 0) return null;
  const percent = Math.max(0, (cost / bestPossibleCost - 1) * 100);
  return words.atMost(rounded(Math.ceil(percent * 10) / 10, 1));
}

export function HowGood({ search, currency, onStop, onAccept }: HowGoodParts) {
  const running = isRunning(search);
  const said = [running ? words.searching : null, goodness(search)].filter((part) => part !== null);
  return (
    <section>
      <h2>{words.howGood}</h2>
      <p class="figure" role="status">
        {said.join(": ")}
      </p>
      <p>
        {search.cost !== null && `${words.cost}: ${money(search.cost, currency)}, `}
        {words.searchedFor(rounded(search.seconds))}. {search.inForce ? words.inForce : words.notInForce}
      </p>
      {search.problem !== null && <p class="alert">{search.problem}</p>}
      <p class="buttons">
        {running && <button onClick={onStop}>{words.stop}</button>}
        {!running && !search.inForce && search.plan !== null && search.kind !== "quote" && (
          <button onClick={onAccept}>{words.accept}</button>
        )}
      </p>
    </section>
  );
}
