/** Loads that were not fired through: interrupted in mid-bake, or taken out before they were closed. */
import type { PlanLoad } from "../contract/plan.ts";
import type { Interruption } from "../contract/searching.ts";
import { conflict } from "../http/failure.ts";
import { MINUTE, shopTime } from "../shop/instants.ts";
import type { ShopTime } from "../shop/instants.ts";
import { overdueMarked } from "../shop/overdue.ts";
import type { PanFile } from "../shop/pieces.ts";
import type { Current } from "../shop/stand.ts";
import { interruptionOf } from "./interrupted.ts";
import type { Interrupted } from "./interrupted.ts";
import { OPEN, loadRow } from "./load-events.ts";
import type { Happening } from "./pan-events.ts";
import { panRows } from "./pan-events.ts";

/** Nobody believes a load that lost its burner: its pans follow the plan no longer but what they had by then. */
export async function loadInterrupted(
  happening: Happening,
  id: string,
  cause: string,
  current: Current | null,
): Promise<Interruption | undefined> {
  const { row, load } = await loadRow(happening, id, OPEN);
  const time = shopTime(happening.day);
  if (time.millis(load.doorClosesAt) > happening.at) throw conflict(`${id} is not in the oven yet.`);
  const told = interruptionOf(current?.day ?? happening.day, load, happening.at);
  const body = JSON.stringify(brokenOff(load, told, happening.at, time));
  await happening.change.put("load", row.id, { body, state: "interrupted", note: cause });
  await stillToBake(happening, load, `interrupted: ${cause}`, (id) => {
    const pan = told?.told.pans.find((one) => one.pan === id);
    return pan !== undefined && (pan.advice === "inspect" || pan.advice === "strip") ? pan.words : undefined;
  });
  return told?.told;
}

/** Its door was open when its oven was lost: nothing of it was fired. */
export async function takenOut(happening: Happening, id: string): Promise<void> {
  const { row, load } = await loadRow(happening, id, OPEN);
  await happening.change.put("load", row.id, { state: "dropped", note: "taken out before it was closed" });
  await stillToBake(happening, load, "", () => undefined);
}

/** The firing as far as it went: it ends here, with the heat and the gas it had. */
function brokenOff(load: PlanLoad, told: Interrupted | undefined, at: number, time: ShopTime): PlanLoad {
  const end = time.write(Math.ceil(at / MINUTE) * MINUTE);
  const closed = time.millis(load.doorClosesAt);
  const minute = Math.max(0, Math.floor((at - closed) / MINUTE));
  const share = Math.min(1, (at - closed) / Math.max(MINUTE, time.millis(load.unloadAt) - closed));
  const curve = load.curve.filter((point) => point.minute < minute);
  const last = load.curve.find((point) => point.minute === minute) ?? load.curve.at(-1);
  return {
    ...load,
    unloadAt: end,
    doneAt: end,
    gasKWh: told?.gasKWh ?? load.gasKWh * share,
    curve: last === undefined ? [] : [...curve, { ...last, minute, chamberC: told?.told.chamberC ?? last.chamberC }],
  };
}

/** The pans of a load that was not fired through: the coat of that load is on, and still to bake; some wait for a look. */
async function stillToBake(
  happening: Happening,
  load: PlanLoad,
  note: string,
  waitFor: (pan: string) => string | undefined,
): Promise<void> {
  const time = shopTime(happening.day);
  const whole = time.write(Math.ceil(happening.at / MINUTE) * MINUTE);
  for (const place of load.pans) {
    const wait = waitFor(place.id);
    for (const row of await panRows(happening.change, place.id)) {
      const file = JSON.parse(row.body) as PanFile;
      const again = { ...file, nextCoat: place.coat, sprayed: true, prepMinutes: 0, readyAt: whole };
      const body = JSON.stringify(overdueMarked(again, time));
      const state = wait === undefined ? "waiting" : "on hold";
      await happening.change.put("pan", row.id, { body, follows: "no", state, note: wait ?? note });
    }
  }
}
