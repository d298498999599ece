/**
 * The large change to an arrangement: some loads of one family are emptied and filled afresh. The longest job that is
 * left opens a load, and the rest of its room goes to the most worthwhile of the others, which an exact knapsack chooses.
 * What is worthwhile is drawn anew each time: area alone, or area and minutes, with some noise.
 */
import type { Random } from "../random.ts";
import type { Arrangement } from "./arrangement.ts";
import type { JobDay } from "./job-day.ts";
import type { Move } from "./moves.ts";

const MOST_LOADS = 9;
/** Minutes count in what is worthwhile to a power of at most this. */
const MOST_POWER = 1.5;
const MOST_NOISE = 0.6;
/** Finest grid of areas, and the grid where none that fine holds all areas: there they are rounded up. */
const MOST_UNITS = 4096;
const ROUNDED_UNITS = 1024;
const SAME_AREA = 1e-6;

export function refilling(day: JobDay): Move {
  const { units, room } = wholeAreas(day);
  const best = new Float64Array(room + 1);
  const chosen = new Uint8Array(day.count * (room + 1));
  const worth = new Float64Array(day.count);

  /** Takes out of `jobs` what goes best with the first of them, which is the longest; both stay in their order. */
  function fill(jobs: number[]): number[] {
    const free = room - units[jobs[0]!]!;
    if (sumOf(jobs, units) <= room) return jobs.splice(0);
    best.fill(0, 0, free + 1);
    chosen.fill(0, 0, jobs.length * (free + 1));
    for (let at = 1; at < jobs.length; at++) {
      const job = jobs[at]!;
      const gain = worth[job]!;
      const wanted = units[job]!;
      const row = at * (free + 1);
      for (let used = free; used >= wanted; used--) {
        const whole = best[used - wanted]! + gain;
        if (whole <= best[used]!) continue;
        best[used] = whole;
        chosen[row + used] = 1;
      }
    }
    const load: number[] = [];
    const rest: number[] = [];
    let left = free;
    for (let at = jobs.length - 1; at > 0; at--) {
      const job = jobs[at]!;
      if (chosen[at * (free + 1) + left] === 0) {
        rest.push(job);
        continue;
      }
      load.push(job);
      left -= units[job]!;
    }
    load.push(jobs[0]!);
    jobs.splice(0, jobs.length, ...rest.toReversed());
    return load.reverse();
  }

  return (arrangement, random) => {
    const places = somePlaces(arrangement, random);
    if (places.length < 2) return false;
    const loads = places.map((place) => arrangement.order[place]!);
    const jobs = loads.flatMap((load) => arrangement.jobsOf(load));
    jobs.sort((a, b) => day.minutes[b]! - day.minutes[a]! || a - b);
    const power = MOST_POWER * random.next();
    const noise = MOST_NOISE * random.next();
    for (const job of jobs)
      worth[job] = day.areaDm2[job]! * day.minutes[job]! ** power * (1 + noise * random.next()) + LEAST_WORTH;
    for (const job of jobs) arrangement.remove(job);
    const family = day.family[jobs[0]!]!;
    for (let index = 0; jobs.length > 0; index++) {
      const load = arrangement.open(Math.min(places[index] ?? Infinity, arrangement.loads), family);
      for (const job of fill(jobs)) arrangement.add(load, job);
    }
    return true;
  };
}

/** A job without minutes or area is taken along all the same. */
const LEAST_WORTH = 1e-9;

/** Places of loads of one family, ascending: any of them, or some whose minutes are alike. */
function somePlaces(arrangement: Arrangement, random: Random): number[] {
  const { order, loads, family, minutes } = arrangement;
  const first = random.below(loads);
  const alike = Array.from({ length: loads }, (_, place) => place).filter(
    (place) => family[order[place]!] === family[order[first]!],
  );
  const wanted = Math.min(alike.length, 2 + random.below(MOST_LOADS - 1));
  if (random.below(2) === 0) {
    for (let at = 0; at < wanted; at++) {
      const other = at + random.below(alike.length - at);
      [alike[at], alike[other]] = [alike[other]!, alike[at]!];
    }
    return alike.slice(0, wanted).sort((a, b) => a - b);
  }
  alike.sort((a, b) => minutes[order[b]!]! - minutes[order[a]!]! || a - b);
  const from = Math.max(0, Math.min(alike.length - wanted, alike.indexOf(first) - random.below(wanted)));
  return alike.slice(from, from + wanted).sort((a, b) => a - b);
}

/** Areas as whole numbers of a common unit, room rounded down: exactly where a unit is found, else rounded up. */
function wholeAreas({ areaDm2, roomDm2 }: JobDay): { readonly units: Int32Array; readonly room: number } {
  for (const perDm2 of [1, 10, 100]) {
    const scaled = areaDm2.map((area) => area * perDm2);
    if (!scaled.every((area) => Math.abs(area - Math.round(area)) < SAME_AREA)) continue;
    const whole = Int32Array.from(scaled, Math.round);
    const unit = whole.reduce(divisor, 0) || 1;
    const room = Math.floor((roomDm2 * perDm2 + SAME_AREA) / unit);
    if (room <= MOST_UNITS) return { units: whole.map((area) => area / unit), room };
  }
  const unit = roomDm2 / ROUNDED_UNITS;
  return {
    units: Int32Array.from(areaDm2, (area) => Math.min(ROUNDED_UNITS, Math.ceil(area / unit - SAME_AREA))),
    room: ROUNDED_UNITS,
  };
}

function divisor(one: number, other: number): number {
  return other === 0 ? one : divisor(other, one % other);
}

function sumOf(jobs: readonly number[], figures: Int32Array): number {
  let sum = 0;
  for (const job of jobs) sum += figures[job]!;
  return sum;
}
