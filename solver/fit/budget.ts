/** Search effort left, in steps of about 50 µs on a common machine; charged by counted work, never by the clock. */
export interface Budget {
  left: number;
}

/** Sets aside a share of what is left: spending it spends the whole. */
export function withShare<T>(budget: Budget, share: number, work: (part: Budget) => T): T {
  const part = { left: budget.left * share };
  const given = part.left;
  const result = work(part);
  budget.left -= given - part.left;
  return result;
}
