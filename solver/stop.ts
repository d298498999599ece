/** When to stop: how far the search is through what it may spend, asked between steps. */

/** From 0 to 1; at 1 or above the search ends. Steps are sequences timed. */
export type Progress = (steps: number) => number;

/** A budget of steps: the same input and seed give the same plan. */
export function stepBudget(steps: number): Progress {
  return (done) => (steps <= 0 ? 1 : done / steps);
}

/** A budget of seconds by the caller's clock. `now` answers seconds. */
export function secondsBudget(seconds: number, now: () => number): Progress {
  const start = now();
  return () => (seconds <= 0 ? 1 : (now() - start) / seconds);
}

/** Of what is left of a budget once so many steps are done. */
export function restOf(whole: Progress, steps: number): Progress {
  const begun = whole(steps);
  return (done) => (begun >= 1 ? 1 : (whole(done) - begun) / (1 - begun));
}

/** Ends as soon as one of them does. */
export function either(...rules: readonly Progress[]): Progress {
  return (done) => Math.max(...rules.map((rule) => rule(done)));
}
