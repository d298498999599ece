/**
 * Start minutes of activities whose order is settled, at least cost: lateness, the crew's time, waiting gas. A linear
 * program of difference constraints; with whole minutes its corners are whole (its matrix is a network's, textbook), and
 * fractional promises are met by rounding all starts alike. The last step of planning calls it.
 */
import type { Lp, LpLimits } from "../lp/lp.ts";
import type { Column, LinearModel, Row } from "../lp/model.ts";

export interface TimingTask {
  /** Whole minutes each activity may start at. `latest` may be Infinity. */
  readonly earliest: readonly number[];
  readonly latest: readonly number[];
  /** Start of `to` minus start of `from` is at least so many whole minutes; negative for "at most" read backwards. */
  readonly least: readonly (readonly [from: number, to: number, minutes: number])[];
  readonly lateness: readonly Lateness[];
  /** Money per minute that the last of `finish` ends later. */
  readonly finishRate: number;
  readonly finish: readonly Ending[];
  /** Money per minute that each activity starts later, any sign; absent for none. Negative needs a `latest`. */
  readonly slope?: readonly number[];
}

/** Something ends so many minutes after the start of an activity. */
export interface Ending {
  readonly activity: number;
  readonly plus: number;
}

/** `rate` money per minute that the last of the endings is after `promised`. */
export interface Lateness {
  readonly endings: readonly Ending[];
  readonly promised: number;
  readonly rate: number;
}

/** Whole start minutes of least cost; undefined when none keep the constraints, or the task is too large to solve. */
export function timeSequence(lp: Lp, task: TimingTask, limits: LpLimits = {}): number[] | undefined {
  const window = tightWindows(task);
  if (!window) return undefined;
  const answer = lp.solve(timingModel(task, window), limits);
  if (answer.status !== "optimal") return undefined;
  const free = answer.x.slice(0, task.earliest.length);
  return bestRounding(task, window, free);
}

/** Money the starts cost beyond what no start can change: the quantity `timeSequence` minimises. */
export function timingCost(task: TimingTask, start: readonly number[]): number {
  const last = (endings: readonly Ending[]): number =>
    endings.reduce((most, { activity, plus }) => Math.max(most, (start[activity] ?? 0) + plus), -Infinity);
  const late = task.lateness.reduce((sum, l) => sum + l.rate * Math.max(0, last(l.endings) - l.promised), 0);
  const slopes = (task.slope ?? []).reduce((sum, rate, i) => sum + rate * (start[i] ?? 0), 0);
  const finish = task.finish.length > 0 ? task.finishRate * last(task.finish) : 0;
  return late + finish + slopes;
}

interface Windows {
  readonly from: readonly number[];
  readonly to: readonly number[];
}

/** Windows after every constraint has pushed on them (longest paths); undefined when one has closed or a cycle never ends. */
function tightWindows(task: TimingTask): Windows | undefined {
  const from = [...task.earliest];
  const to = [...task.latest];
  for (let round = 0; round <= from.length; round++) {
    let moved = false;
    for (const [i, j, minutes] of task.least) {
      const soonest = (from[i] ?? 0) + minutes;
      const lastChance = (to[j] ?? Infinity) - minutes;
      if (soonest <= (from[j] ?? 0) && lastChance >= (to[i] ?? Infinity)) continue;
      from[j] = Math.max(from[j] ?? 0, soonest);
      to[i] = Math.min(to[i] ?? Infinity, lastChance);
      moved = true;
    }
    if (from.some((low, i) => low > (to[i] ?? Infinity))) return undefined;
    if (!moved) return { from, to };
  }
  return undefined;
}

/** Starts first, then one column per lateness, then the finish. What the windows settle already gets no row. */
function timingModel(task: TimingTask, window: Windows): LinearModel {
  const columns: Column[] = task.earliest.map((_, i) => {
    // An end of window that a constraint brought about follows from that constraint's row.
    const own = window.to[i] === task.latest[i];
    return { cost: task.slope?.[i] ?? 0, low: window.from[i] ?? 0, high: own ? (window.to[i] ?? Infinity) : Infinity };
  });
  const rows: Row[] = task.least
    .filter(([i, j, minutes]) => (window.from[j] ?? 0) - (task.latest[i] ?? Infinity) < minutes)
    .map(([i, j, minutes]) => ({ kind: ">=", rhs: minutes, columns: [j, i], values: [1, -1] }));
  const after = (endings: readonly Ending[], instant: number, rate: number): void => {
    const surely = endings.reduce((most, e) => Math.max(most, (window.from[e.activity] ?? 0) + e.plus), instant);
    const open = endings.filter((e) => (window.to[e.activity] ?? Infinity) + e.plus > surely);
    if (rate <= 0 || open.length === 0) return;
    const column = columns.push({ cost: rate, low: surely - instant }) - 1;
    for (const { activity, plus } of open) {
      rows.push({ kind: ">=", rhs: plus - instant, columns: [column, activity], values: [1, -1] });
    }
  };
  for (const { endings, promised, rate } of task.lateness) after(endings, promised, rate);
  const soonest = task.finish.reduce((most, e) => Math.max(most, (window.from[e.activity] ?? 0) + e.plus), -Infinity);
  after(task.finish, soonest, task.finishRate);
  return { sense: "min", columns, rows };
}

/** Rounding all starts down after adding the same share keeps every constraint; some share costs no more than the LP. */
function bestRounding(task: TimingTask, window: Windows, free: readonly number[]): number[] | undefined {
  const snapped = free.map((v) => (Math.abs(v - Math.round(v)) < 1e-6 ? Math.round(v) : v));
  const shares = new Set([0, ...snapped.map((v) => Math.ceil(v) - v)]);
  let best: number[] | undefined;
  for (const share of shares) {
    const start = snapped.map((v) => Math.floor(v + share + 1e-9));
    if (keeps(task, window, start) && (!best || timingCost(task, start) < timingCost(task, best))) best = start;
  }
  return best;
}

function keeps(task: TimingTask, window: Windows, start: readonly number[]): boolean {
  const inside = start.every((v, i) => v >= (window.from[i] ?? 0) && v <= (window.to[i] ?? Infinity));
  return inside && task.least.every(([i, j, minutes]) => (start[j] ?? 0) - (start[i] ?? 0) >= minutes);
}
