/** What a request may fail with: thrown by use cases, answered as RFC 9457 problem details by the one error handler. */
import type { Failure } from "../contract/answers.ts";
import type { Problem } from "../contract/problem.ts";

export class Refusal extends Error {
  readonly status: number;
  readonly title: string;
  readonly problems: readonly Problem[];

  constructor(status: number, title: string, detail: string, problems: readonly Problem[] = []) {
    super(detail);
    this.name = "Refusal";
    this.status = status;
    this.title = title;
    this.problems = problems;
  }
}

export const badInput = (detail: string, problems: readonly Problem[] = []): Refusal =>
  new Refusal(422, "Bad input", detail, problems);
export const notFound = (what: string): Refusal => new Refusal(404, "Not found", `There is no ${what}.`);
export const conflict = (detail: string, problems: readonly Problem[] = []): Refusal =>
  new Refusal(409, "Not now", detail, problems);

export function failureOf({ status, title, message, problems }: Refusal): Failure {
  return {
    type: "about:blank",
    title,
    status,
    detail: message,
    ...(problems.length > 0 ? { problems: [...problems] } : {}),
  };
}
