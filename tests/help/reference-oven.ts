/**
 * The oven physics integrated step by step with the classical fourth-order Runge-Kutta method: slow, plain, and written
 * from DEVELOPERS.md "Oven physics" without a look at solver/heat, which it checks.
 */
import type { Member } from "../../solver/heat/members.ts";
import type { FiringDecision } from "../../solver/heat/firing.ts";
import type { ThermalCycle } from "../../solver/shop.ts";

export interface ReferenceBake {
  readonly inWindowMinutes: number | null;
  readonly soakMinutes: number;
  readonly aboveLowMinutes: number;
  readonly peakC: number;
  readonly metalAtUnloadC: number;
}

export interface ReferenceFiring {
  readonly setPointAtMinutes: number | null;
  readonly startsAbove: boolean;
  readonly gasKWh: number;
  readonly chamberAtUnloadC: number;
  readonly chamberAtDoneC: number;
  readonly chamberAtMinuteC: readonly number[];
  readonly members: readonly ReferenceBake[];
  /** J from door closing to unloading: into the chamber, into the metal, through wall and fan. */
  readonly energy: { readonly chamber: number; readonly metal: number; readonly lost: number; readonly burner: number };
}

type State = number[];

/** `stepSeconds` must divide a minute. */
export function referenceFiring(
  cycle: ThermalCycle,
  ambientC: number,
  members: readonly Member[],
  chamberAtOpenC: number,
  decision: FiringDecision,
  stepSeconds = 1,
): ReferenceFiring {
  const film = (member: Member): number => cycle.filmWPerM2K * member.body.exchangeM2;
  const fullW = cycle.burnerKW * 1000 * cycle.efficiency;
  const capacity = cycle.heatCapacityKJPerK * 1000;

  const metalSlopes = (state: State): number[] =>
    members.map((member, i) => (film(member) * (state[0]! + member.offsetC - state[i + 1]!)) / member.body.heatJPerK);
  const drawW = (state: State): number =>
    members.reduce(
      (sum, member, i) => sum + member.count * film(member) * (state[0]! + member.offsetC - state[i + 1]!),
      0,
    );

  // Loading: the pans go in half-way, at room temperature, and warm in the falling chamber.
  const doorS = cycle.doorTauMinutes * 60;
  const loadS = cycle.loadMinutes * 60;
  const fallen = (seconds: number): number => ambientC + (chamberAtOpenC - ambientC) * Math.exp(-seconds / doorS);
  let state: State = [fallen(loadS), ...members.map(() => ambientC)];
  const loadSteps = Math.max(1, Math.round(loadS / 2 / Math.min(stepSeconds, 0.5)));
  const loadStep = loadS / 2 / loadSteps;
  for (let k = 0; k < loadSteps && loadS > 0; k++) {
    const at = loadS / 2 + k * loadStep;
    state = rk4(state, loadStep, (s, dt) => [0, ...metalSlopes([fallen(at + dt), ...s.slice(1)])]);
  }

  const tallies = members.map((member, i) => ({
    first: state[i + 1]! >= member.lowC + cycle.guardC ? 0 : (null as number | null),
    soak: 0,
    low: 0,
    peak: state[i + 1]!,
  }));
  const energy = { chamber: 0, metal: 0, lost: 0, burner: 0 };
  const begun = state;
  const chamberAtMinuteC: number[] = [];
  const { setPointC, burnerOffMinutes, unloadMinutes } = decision;
  let setPointAtMinutes: number | null = null;
  let startsAbove = false;
  let lit = false;
  let reached = false;

  const light = (): void => {
    lit = true;
    startsAbove = reached = state[0]! >= setPointC;
  };

  const stepsPerMinute = Math.round(60 / stepSeconds);
  for (let k = 0; k < unloadMinutes * stepsPerMinute; k++) {
    const minute = k / stepsPerMinute;
    if (k % stepsPerMinute === 0) chamberAtMinuteC.push(state[0]!);
    if (!lit && minute >= cycle.purgeMinutes - 1e-9 && minute <= burnerOffMinutes + 1e-9) light();
    const burning = minute >= cycle.purgeMinutes - 1e-9 && minute < burnerOffMinutes - 1e-9;
    const fan = minute < burnerOffMinutes - 1e-9 ? cycle.exhaustWPerK : cycle.coastExhaustWPerK;
    const lossW = (s: State): number => (cycle.wallLossWPerK + fan) * (s[0]! - ambientC);
    const run = (from: State, seconds: number, power: (s: State) => number): State =>
      rk4(from, seconds, (s) => [(power(s) - lossW(s) - drawW(s)) / capacity, ...metalSlopes(s)]);
    const atSetPoint = (s: State): number => Math.min(fullW, Math.max(0, lossW(s) + drawW(s)));

    const pieces: { to: State; seconds: number; watts: (s: State) => number }[] = [];
    if (!burning) {
      pieces.push({ to: run(state, stepSeconds, () => 0), seconds: stepSeconds, watts: () => 0 });
    } else {
      let from = state;
      let left = stepSeconds;
      while (left > 1e-9) {
        const needed = lossW(from) + drawW(from);
        const at = Math.abs(from[0]! - setPointC) < 1e-7;
        if (at && needed >= 0 && needed <= fullW) {
          const to = run([setPointC, ...from.slice(1)], left, atSetPoint);
          pieces.push({ to, seconds: left, watts: atSetPoint });
          break;
        }
        const watts = at ? (needed > fullW ? fullW : 0) : from[0]! < setPointC ? fullW : 0;
        const whole = run(from, left, () => watts);
        const crosses = !at && (from[0]! < setPointC ? whole[0]! >= setPointC : whole[0]! <= setPointC);
        if (!crosses) {
          pieces.push({ to: whole, seconds: left, watts: () => watts });
          break;
        }
        let low = 0;
        let high = left;
        while (high - low > 1e-10) {
          const middle = (low + high) / 2;
          const there = run(from, middle, () => watts)[0]!;
          if (from[0]! < setPointC ? there >= setPointC : there <= setPointC) high = middle;
          else low = middle;
        }
        const to = run(from, high, () => watts);
        to[0] = setPointC;
        pieces.push({ to, seconds: high, watts: () => watts });
        if (!reached) {
          reached = true;
          setPointAtMinutes = minute + (stepSeconds - left + high) / 60;
        }
        from = to;
        left -= high;
      }
    }

    let elapsed = minute;
    for (const { to, seconds, watts } of pieces) {
      const span = seconds / 60;
      members.forEach((member, i) => {
        const tally = tallies[i]!;
        const from = state[i + 1]!;
        const next = to[i + 1]!;
        const guarded = member.lowC + cycle.guardC;
        tally.low += span * shareAbove(member.lowC, from, next);
        const soak = shareAbove(guarded, from, next);
        tally.soak += span * soak;
        if (tally.first === null && soak > 0) tally.first = elapsed + (from >= guarded ? 0 : span * (1 - soak));
        tally.peak = Math.max(tally.peak, next);
      });
      energy.burner += 0.5 * (watts(state) + watts(to)) * seconds;
      energy.lost += 0.5 * (lossW(state) + lossW(to)) * seconds;
      elapsed += span;
      state = to;
    }
  }
  if (!lit && unloadMinutes >= cycle.purgeMinutes && burnerOffMinutes >= cycle.purgeMinutes) light();
  energy.chamber = capacity * (state[0]! - begun[0]!);
  energy.metal = members.reduce((sum, m, i) => sum + m.count * m.body.heatJPerK * (state[i + 1]! - begun[i + 1]!), 0);
  chamberAtMinuteC.push(state[0]!);
  return {
    setPointAtMinutes,
    startsAbove,
    gasKWh: energy.burner / 3.6e6 / cycle.efficiency,
    chamberAtUnloadC: state[0]!,
    chamberAtDoneC: ambientC + (state[0]! - ambientC) * Math.exp((-cycle.unloadMinutes * 60) / doorS),
    chamberAtMinuteC,
    members: tallies.map((tally, i) => ({
      inWindowMinutes: tally.first,
      soakMinutes: tally.soak,
      aboveLowMinutes: tally.low,
      peakC: tally.peak,
      metalAtUnloadC: state[i + 1]!,
    })),
    energy,
  };
}

/** Share of a straight line from `from` to `to` at or above `level`. */
function shareAbove(level: number, from: number, to: number): number {
  if (from >= level && to >= level) return 1;
  if (from < level && to < level) return 0;
  const share = (level - from) / (to - from);
  return to >= level ? 1 - share : share;
}

function rk4(state: State, seconds: number, slopes: (state: State, elapsed: number) => number[]): State {
  const moved = (by: number[], factor: number): State => state.map((value, i) => value + factor * by[i]!);
  const k1 = slopes(state, 0);
  const k2 = slopes(moved(k1, seconds / 2), seconds / 2);
  const k3 = slopes(moved(k2, seconds / 2), seconds / 2);
  const k4 = slopes(moved(k3, seconds), seconds);
  return state.map((value, i) => value + (seconds / 6) * (k1[i]! + 2 * k2[i]! + 2 * k3[i]! + k4[i]!));
}
