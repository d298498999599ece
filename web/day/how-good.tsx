/** How good the plan is, live while the search runs, and the button that stops it. */
import type { DayFile } from "../../api/contract/day.ts";
import type { PlanFile } from "../../api/contract/plan.ts";
import type { SearchAnswer } from "../../api/contract/searching.ts";
import { unpricedText } from "../../api/contract/words.ts";
import { money, rounded } from "../parts/figures.ts";
import { Table } from "../parts/table.tsx";
import { isRunning, stop } from "../shell/live.ts";
import { words } from "../shell/words-en.ts";

/** By how many percent it may cost more than the best possible plan; null: nothing is proven about it. */
function atMostPercent({ cost, bestPossibleCost, plan }: SearchAnswer): number | null {
  if (plan?.search.status === "proven") return 0;
  if (cost === null || bestPossibleCost === null || bestPossibleCost <= 0) return null;
  return Math.max(0, (cost / bestPossibleCost - 1) * 100);
}

/** What is proven about the plan, in words; null: nothing yet. */
export function goodness(search: SearchAnswer): string | null {
  if (search.cost === null) return null;
  const percent = atMostPercent(search);
  if (percent === null) return words.good.noBound;
  return percent === 0 ? words.good.proven : words.good.atMost(rounded(Math.ceil(percent * 10) / 10, 1));
}

/** So near that a shop would not notice. */
const nearPercent = 5;

function meaning(search: SearchAnswer): string {
  const percent = atMostPercent(search);
  if (percent === null) return words.good.means.nothing;
  if (percent === 0) return words.good.means.proven;
  return percent <= nearPercent ? words.good.means.near : words.good.means.far;
}

interface GoodParts {
  readonly search: SearchAnswer;
  readonly currency: string;
}

export function HowGood({ search, day }: { readonly search: SearchAnswer; readonly day: DayFile }) {
  const currency = day.currency ?? "EUR";
  const unpriced = unpricedText(day);
  const running = isRunning(search);
  const said = [running ? words.good.searching : null, goodness(search)].filter((part) => part !== null);
  const steps = search.plan?.search.steps ?? null;
  return (
    <section class="card" aria-label={words.good.title} tabIndex={0}>
      <h2>{words.good.title}</h2>
      <p class="figure" role="status">
        {said.join(": ")}
      </p>
      <p class="fine">{meaning(search)}</p>
      {unpriced !== null && <p class="fine">{unpriced}</p>}
      {search.plan !== null && <Parts plan={search.plan} search={search} currency={currency} />}
      <p class="fine">{words.good.effort(rounded(search.seconds, 1), steps === null ? words.none : rounded(steps))}</p>
      <p class="buttons">{running && <button onClick={() => void stop(search.id)}>{words.good.stop}</button>}</p>
      {search.problem !== null && <p class="wrong">{search.problem}</p>}
    </section>
  );
}

/** What the plan costs, part by part, beside what no plan avoids. */
function Parts({ plan, search, currency }: GoodParts & { readonly plan: PlanFile }) {
  const w = words.good;
  const { cost, search: found } = plan;
  const least = found.unavoidable;
  const text = (amount: number | null | undefined): string => (amount == null ? words.none : money(amount, currency));
  const extra = cost.leftOver + cost.moved;
  const rows = [
    [w.part.gas, text(cost.gas), text(least?.gas)],
    [w.part.crew, text(cost.crew), text(least?.crew)],
    [w.part.late, text(cost.late), text(least?.late)],
    ...(extra > 0 ? [[w.part.extra, text(extra), words.none]] : []),
    [w.part.total, text(search.cost), search.bestPossibleCost ? text(search.bestPossibleCost) : words.none],
  ];
  return <Table caption={w.parts} columns={[w.part.of, w.part.plan, w.part.least]} rows={rows} />;
}
