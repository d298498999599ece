/** What every handler works with. */
import type { Clock } from "../clock.ts";
import type { Planner } from "../plans/planner.ts";
import type { OpenFile } from "../store/database.ts";

export interface App {
  readonly store: OpenFile;
  readonly planner: Planner;
  readonly clock: Clock;
}
