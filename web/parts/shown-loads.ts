/** The loads that belong on screen with a search's plan. */
import type { SearchAnswer } from "../../api/contract/searching.ts";
import type { Live } from "../shell/live.ts";
import type { LoadNow } from "./load-now.ts";

/** The plan in force as it is carried out; any other plan as it is written, after the loads that are facts for it. */
export function shownLoads(live: Live, { inForce, plan }: SearchAnswer): readonly LoadNow[] {
  if (inForce && live.loads.length > 0) return live.loads;
  const planned = (plan?.loads ?? []).map((load) => ({ id: load.id, state: load.state, note: "", load }));
  const own = new Set(planned.map(({ id }) => id));
  const before = live.loads.filter(({ id, state }) => !own.has(id) && state !== "planned" && state !== "pinned");
  return [...before, ...planned];
}
