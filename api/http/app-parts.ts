/** What every handler works with. */
import type { Clock } from "../clock.ts";
import type { Planner } from "../plans/planner.ts";
import type { OpenFile } from "../store/database.ts";
import type { WhatIfs } from "../what-if/what-ifs.ts";

export interface App {
  readonly store: OpenFile;
  readonly planner: Planner;
  readonly whatIfs: WhatIfs;
  readonly clock: Clock;
}
