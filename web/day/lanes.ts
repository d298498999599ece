/** Booth and bench tasks by who does them. As many lanes as there are sprayers and benches, busy or not. */
import { coatName, pieceName } from "../parts/day-lookup.ts";
import type { Planned } from "../parts/day-lookup.ts";
import { words } from "../shell/words-en.ts";

export interface Task {
  readonly from: string;
  readonly to: string;
  readonly said: string;
}

export interface Lane {
  readonly name: string;
  readonly kind: "booth" | "bench";
  readonly tasks: readonly Task[];
}

export function lanesOf({ plan, day }: Planned): Lane[] {
  const sprayers = Math.max(day.booth?.sprayers ?? 1, ...plan.booth.map(({ sprayer }) => sprayer));
  const benches = Math.max(day.prep?.benches ?? 1, ...plan.prep.map(({ bench }) => bench));
  const upTo = (many: number): number[] => Array.from({ length: many }, (_, i) => i + 1);
  return [
    ...upTo(sprayers).map((n) => ({
      name: words.booth(n),
      kind: "booth" as const,
      tasks: plan.booth
        .filter(({ sprayer }) => sprayer === n)
        .map((task) => ({ from: task.from, to: task.to, said: `${pieceName(day, task)}, ${coatName(day, task)}` })),
    })),
    ...upTo(benches).map((n) => ({
      name: words.bench(n),
      kind: "bench" as const,
      tasks: plan.prep
        .filter(({ bench }) => bench === n)
        .map((task) => ({ from: task.from, to: task.to, said: pieceName(day, task) })),
    })),
  ];
}
