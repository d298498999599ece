/**
 * How the shop stands at an instant, as a day file to plan the rest from: facts taken as given, what is out of use left
 * out, every pan as far as it is, and where the plan in force had what is moved now.
 */
import type { DayFile } from "../contract/day.ts";
import { pathText } from "../contract/problem.ts";
import type { Problem } from "../contract/problem.ts";
import { readDay } from "../day/read-day.ts";
import { dayOf } from "./day-rows.ts";
import type { ShopRows } from "./day-rows.ts";
import type { OnHold } from "./equipment.ts";
import { coatingsInUse, hasSprayer, ovensInUse, withoutSprayer } from "./equipment.ts";
import { gasNow } from "./gas-now.ts";
import { heldLoads } from "./held-now.ts";
import { inForceLoadsOf, inForceOf } from "./in-force.ts";
import { MINUTE, horizon, shopTime } from "./instants.ts";
import { overdueMarked } from "./overdue.ts";
import { ovenNow } from "./oven-now.ts";
import { dayByPiece, piecesOf } from "./pieces.ts";
import type { PanFile } from "./pieces.ts";
import { hasOpened, isDone, progressOf } from "./progress.ts";
import type { InForcePlan, LoadNow, Moment } from "./progress.ts";

export interface Stand {
  readonly day: DayFile;
  readonly asOf: number;
  readonly onHold: readonly OnHold[];
  readonly setAside: readonly SetAside[];
  readonly finished: readonly string[];
  /** Loads over or under way. */
  readonly soFar: readonly LoadNow[];
}

/** A pan that planning is not asked about, its row's state and why. */
export interface SetAside {
  readonly pan: string;
  readonly state: string;
  readonly why: string;
}

export type Standing =
  | { readonly ok: true; readonly stand: Stand }
  | { readonly ok: false; readonly why: string; readonly problems: readonly Problem[] };

/** The plan in force, its own day file, and its loads as they are now. */
export interface Current extends InForcePlan {
  readonly id: string;
}

export function standAt(rows: ShopRows, current: Current | null, now: number): Standing {
  const stored = dayOf(rows);
  if (stored === undefined) return refuse("No shop is set up yet: put a day file first.");
  const base = horizon(stored);
  const asOf = Math.max(Math.ceil(now / MINUTE) * MINUTE, base.from);
  if (asOf >= base.to) return refuse("All staffed time of this day is over: close the day, or add staffed hours.");
  const ovens = ovensInUse(rows, asOf, shopTime(stored));
  if (ovens.length === 0) return refuse("Every oven is out of use: nothing can be planned until one is back.");
  const coatings = coatingsInUse(stored.coatings, ovens);
  if (coatings.length === 0) return refuse("No coating can be baked in the ovens in use.");
  return settle(laidOut({ rows, stored, current, asOf, now, ovens, coatings }), []);
}

function refuse(why: string, problems: readonly Problem[] = []): Standing {
  return { ok: false, why, problems };
}

interface Parts {
  readonly rows: ShopRows;
  readonly stored: DayFile;
  readonly current: Current | null;
  readonly asOf: number;
  readonly now: number;
  readonly ovens: DayFile["ovens"];
  readonly coatings: DayFile["coatings"];
}

function laidOut(parts: Parts): Stand {
  const { rows, stored, current, asOf, ovens } = parts;
  const moment = momentOf(parts);
  const pieces = waitingPieces(rows).map(({ pan, follows }) => ({
    id: pan.id,
    follows,
    at: progressOf(pan, follows, current, moment),
  }));
  const opened = current === null ? [] : current.loads.filter((entry) => hasOpened(entry, moment));
  const firing = opened.filter((entry) => !isDone(entry, moment));
  const inOven = new Set(pieces.filter(({ at }) => at.kind === "in the oven").map(({ id }) => id));
  const alive = pieces.flatMap(({ at }) => (at.kind === "finished" ? [] : [at.pan]));
  const known = new Set(parts.coatings.map(({ id }) => id));
  const usable = alive.filter(({ coating }) => known.has(coating));
  const stuck = alive
    .filter(({ coating }) => !known.has(coating))
    .map(({ id }) => ({ pan: id, why: "The oven its coats need is out of use." }));
  const sprayed = hasSprayer(rows)
    ? { pans: usable, coatings: parts.coatings, onHold: [] }
    : withoutSprayer(usable, parts.coatings, inOven);
  const pans = sprayed.pans.map((pan) => overdueMarked(pan, moment.time));
  const held = current === null ? dayByPiece(stored).held : heldLoads({ current, firing, ovens, moment, pans });
  const lastCoat = new Map(sprayed.coatings.map(({ id, coats }) => [id, coats.length]));
  const isOnlyInOven = ({ id, coating, nextCoat = 1 }: PanFile): boolean =>
    inOven.has(id) && nextCoat >= (lastCoat.get(coating) ?? 0);
  const planned = new Set(pans.flatMap((pan) => (isOnlyInOven(pan) ? [] : [pan.id])));
  const day: DayFile = {
    ...stored,
    planFrom: moment.time.write(asOf),
    coatings: [...sprayed.coatings],
    ovens: ovens.map((oven) => ovenNow(oven, current, { opened, firing, moment, asOf, coatings: stored.coatings })),
    pans,
    ...(held === undefined ? {} : { held }),
    ...(stored.gas === undefined || current === null
      ? {}
      : {
          gas: gasNow(
            stored.gas,
            rows.settings.find(({ id }) => id === "gas"),
            current.loads,
            moment,
          ),
        }),
    inForce: current === null ? [] : inForceOf(current, pieces, moment).filter(({ id }) => planned.has(id)),
    inForceLoads: current === null ? [] : inForceLoadsOf(current, pans, moment),
  };
  const finished = pieces.filter(({ at }) => at.kind === "finished").map(({ id }) => id);
  return {
    day,
    asOf,
    onHold: [...stuck, ...sprayed.onHold],
    finished,
    soFar: opened,
    setAside: setAsideIn(rows),
  };
}

/** Pans on hold, withdrawn, handed over, one by one. */
export function setAsideIn(rows: Pick<ShopRows, "pans">): SetAside[] {
  return rows.pans
    .filter(({ state }) => ["on hold", "withdrawn", "handed over"].includes(state))
    .flatMap(({ body, state, note }) =>
      piecesOf([JSON.parse(body) as PanFile]).map(({ id }) => ({ pan: id, state, why: note || whyOf(state) })),
    );
}

function whyOf(state: string): string {
  return state === "on hold" ? "Set aside until it is reported ready." : `It is ${state}.`;
}

/** Pans that are waiting, one by one, with what their row follows. */
export function waitingPieces(rows: Pick<ShopRows, "pans">): { readonly pan: PanFile; readonly follows: string }[] {
  const waiting = rows.pans.filter(({ state }) => state === "waiting");
  const lines = waiting.map(({ body }) => JSON.parse(body) as PanFile);
  const follows = waiting.flatMap((row, i) => Array.from({ length: lines[i]?.quantity ?? 1 }, () => row.follows));
  return piecesOf(lines).map((pan, i) => ({ pan, follows: follows[i] ?? "" }));
}

export function momentOf({ stored, now }: { stored: DayFile; now: number }): Moment {
  const coatOf = (coating: string, coat: number): DayFile["coatings"][number]["coats"][number] | undefined =>
    stored.coatings.find(({ id }) => id === coating)?.coats[coat - 1];
  return {
    now,
    time: shopTime(stored),
    inspectMinutes: (coating, coat) => coatOf(coating, coat)?.inspectMinutes ?? 0,
    sprayMinutes: (coating, coat) => coatOf(coating, coat)?.sprayMinutes ?? 0,
    flashMinutes: (coating, coat) => coatOf(coating, coat)?.flashMinutes ?? 0,
    coats: (coating) => stored.coatings.find(({ id }) => id === coating)?.coats.length ?? 0,
    finishMinutes: stored.finishMinutes ?? 0,
  };
}

/** Sets aside, with the reason, every pan that the day file's own checks refuse; anything else wrong refuses the whole. */
function settle(stand: Stand, onHold: readonly OnHold[]): Standing {
  const read = readDay(stand.day);
  if (read.ok) return { ok: true, stand: { ...stand, onHold: [...stand.onHold, ...onHold] } };
  const heldIds = new Set((stand.day.held ?? []).flatMap(({ pans }) => (pans ?? []).map(({ id }) => id)));
  const bad = new Map<string, string>();
  for (const { path, message } of read.problems) {
    const at = /^pans\[(\d+)\]/.exec(path)?.[1];
    const pan = at === undefined ? undefined : stand.day.pans[Number(at)];
    if (pan === undefined || heldIds.has(pan.id))
      return refuse(`The day cannot be planned as it stands: ${message}`, read.problems);
    bad.set(pan.id, message);
  }
  if (bad.size === 0) return refuse(`The day cannot be planned as it stands (${pathText([])}).`, read.problems);
  const pans = stand.day.pans.filter(({ id }) => !bad.has(id));
  const inForce = (stand.day.inForce ?? []).filter(({ id }) => !bad.has(id));
  const more = [...bad].map(([pan, why]) => ({ pan, why }));
  return settle({ ...stand, day: { ...stand.day, pans, inForce } }, [...onHold, ...more]);
}
