/** What was reported of a load and stands: not undone since. */
import type { Logged } from "../../api/contract/happened.ts";
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

/** When it happened as reported; else when it was reported. Milliseconds. */
export function happenedAt({ at, body }: Logged): number {
  const said = typeof body === "object" && body !== null && "at" in body ? body.at : undefined;
  return millisOf(typeof said === "string" ? said : at);
}
