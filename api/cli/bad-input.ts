/** What was handed in cannot be used: said to the caller with exit code 2, nothing written. */
import type { Problem } from "../contract/problem.ts";

export class BadInput extends Error {
  readonly problems: readonly Problem[];

  /** `message` says what cannot be used; `problems` everything that is wrong with it, where there is more to say. */
  constructor(message: string, problems: readonly Problem[] = []) {
    super(message);
    this.problems = problems;
  }
}
