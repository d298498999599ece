/** What the log tells: reports of a load that stand, not undone since; whether anything came after a plan was asked for. */
import type { Logged } from "../../api/contract/happened.ts";
import type { SearchAnswer } from "../../api/contract/searching.ts";
import { millisOf } from "../parts/clock.ts";

export type LoadReport = "load-opened" | "load-closed" | "burner-off" | "load-out";

export function standing(events: readonly Logged[], load: string): readonly Logged[] {
  const undone = new Set(events.map(({ undoes }) => undoes));
  return events.filter(({ id, subject, undoes }) => subject === load && undoes === null && !undone.has(id));
}

/** The newest report of that kind; undefined: none, or it was undone. */
export function reportOf(events: readonly Logged[], load: string, kind: LoadReport): Logged | undefined {
  return standing(events, load).findLast((event) => event.kind === kind);
}

/** `madeAt` of a search is told to the nearest second. */
const roundedByMs = 500;

/** True: something was reported or edited since the search was asked for, so that the service takes its plan no more. */
export function isOutdated({ madeAt }: Pick<SearchAnswer, "madeAt">, events: readonly Logged[]): boolean {
  return events.some(({ at }) => millisOf(at) > millisOf(madeAt) + roundedByMs);
}

/** When it happened as reported; else when it was reported. Milliseconds. */
export function happenedAt({ at, body }: Logged): number {
  const said = typeof body === "object" && body !== null && "at" in body ? body.at : undefined;
  return millisOf(typeof said === "string" ? said : at);
}
