/** A new file starts with the demo day, planned, so that there is something to see. */
import type { Clock } from "./clock.ts";
import { beginChange, rowsOf } from "./store/change.ts";
import { addSearch } from "./plans/searches.ts";
import { acceptPlan } from "./plans/accept.ts";
import type { Service } from "./service.ts";
import { demoDay } from "./shop/demo-day.ts";
import { putDay } from "./shop/day-rows.ts";
import { record } from "./shop/edit.ts";
import { dayByPiece } from "./shop/pieces.ts";
import { shopTime } from "./shop/instants.ts";

const demoSeconds = 10;

/** Answers before the search has ended; its plan is accepted when it has. */
export async function firstStart({ store, planner }: Pick<Service, "store" | "planner">, clock: Clock): Promise<void> {
  if ((await rowsOf(store.db, "setting")).length > 0) return;
  const day = demoDay(clock.now());
  const id = await store.db.transaction().execute(async (trx) => {
    const change = beginChange(trx);
    await putDay(change, day);
    await record({ clock }, change, { who: "", kind: "day-put", subject: day.title ?? "", body: { demo: true } });
    const asOf = shopTime(day).millis(day.planFrom);
    const extra = { asOf, onHold: [], finished: [], soFar: [], pinned: [], before: null, quote: null };
    const options = { seed: 1, seconds: demoSeconds, steps: null, gapPercent: 0.1, numberFrom: 0 };
    return addSearch({ clock }, trx, { kind: "plan", day: dayByPiece(day), options, extra });
  });
  planner.start(id);
  await planner.firstPlan(id, 3_000);
  planner.listen(id, (told) => {
    if (told.kind !== "ended" || told.state === "failed") return;
    const accept = store.db
      .transaction()
      .execute(async (trx) => acceptPlan({ clock }, beginChange(trx), id, { who: "", note: "demo" }));
    // Somebody has changed the day meanwhile: then it is theirs, and there is nothing to accept.
    accept.catch(() => undefined);
  });
}
