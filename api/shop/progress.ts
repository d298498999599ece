/**
 * How far each piece is at an instant, by the plan in force and by what was reported since: coats baked, in the oven
 * now, sprayed, on the bench. The plan is believed where nobody said otherwise.
 */
import type { DayFile } from "../contract/day.ts";
import type { PlanFile, PlanLoad } from "../contract/plan.ts";
import { handsSoFar } from "./hands-so-far.ts";
import type { PanFile } from "./pieces.ts";
import { MINUTE } from "./instants.ts";
import type { ShopTime } from "./instants.ts";

/** A load of the plan in force with its instants as they happened or are now expected, and its state in the file. */
export interface LoadNow {
  readonly load: PlanLoad;
  readonly state: string;
}

export interface InForcePlan {
  readonly plan: PlanFile;
  /** The day that it was made for. */
  readonly day: DayFile;
  readonly loads: readonly LoadNow[];
}

export type Progress =
  | { readonly kind: "waiting"; readonly pan: PanFile }
  /** In a load whose door has opened and that is not done yet. */
  | { readonly kind: "in the oven"; readonly pan: PanFile; readonly load: string }
  | { readonly kind: "finished"; readonly at: number };

export interface Moment {
  readonly now: number;
  readonly time: ShopTime;
  /** Inspection and finishing, minutes. */
  readonly inspectMinutes: (coating: string, coat: number) => number;
  readonly sprayMinutes: (coating: string, coat: number) => number;
  readonly flashMinutes: (coating: string, coat: number) => number;
  readonly coats: (coating: string) => number;
  readonly finishMinutes: number;
}

/** A load is under way or over where it was reported so, or where its time has come and nobody reported a delay. */
export function hasOpened({ load, state }: LoadNow, { now, time }: Moment): boolean {
  if (state === "firing" || state === "fired") return true;
  if (state !== "planned" && state !== "pinned") return false;
  return time.millis(load.doorOpensAt) <= now;
}

export function isDone({ load, state }: LoadNow, { now, time }: Moment): boolean {
  return state === "fired" || time.millis(load.doneAt) <= now;
}

/** `follows`: from which instant on the plan tells how far this row is; "" from its start, "no" not at all. */
export function progressOf(pan: PanFile, follows: string, plan: InForcePlan | null, moment: Moment): Progress {
  if (plan === null || follows === "no") return { kind: "waiting", pan };
  const since = follows === "" ? -Infinity : Date.parse(follows);
  return afterOven(pan, plan, moment, since);
}

function afterOven(pan: PanFile, plan: InForcePlan, moment: Moment, since: number): Progress {
  const { time } = moment;
  let state = pan;
  for (;;) {
    const coat = state.nextCoat ?? 1;
    const bake = plan.loads.find(
      (entry) =>
        hasOpened(entry, moment) &&
        // Loads of plans before this one are in the pans' states already.
        plan.plan.loads.some(({ id }) => id === entry.load.id) &&
        time.millis(entry.load.doorOpensAt) >= since &&
        entry.load.pans.some((place) => place.id === pan.id && place.coat === coat),
    );
    if (bake === undefined) return { kind: "waiting", pan: handsSoFar(state, plan, moment, since) };
    if (!isDone(bake, moment)) return { kind: "in the oven", pan: state, load: bake.load.id };
    const place = bake.load.pans.find(({ id }) => id === pan.id);
    const cooled = Math.max(time.millis(place?.cooledAt ?? bake.load.doneAt), time.millis(bake.load.doneAt));
    const inspected = cooled + moment.inspectMinutes(pan.coating, coat) * MINUTE;
    if (coat >= moment.coats(pan.coating)) return { kind: "finished", at: inspected + moment.finishMinutes * MINUTE };
    const readyAt = time.write(Math.ceil(inspected / MINUTE) * MINUTE);
    state = { ...state, nextCoat: coat + 1, sprayed: false, prepMinutes: 0, readyAt };
  }
}
