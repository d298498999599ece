/** Small changes to an arrangement that the search tries. Each answers whether it changed anything. */
import type { Random } from "../random.ts";
import type { Arrangement } from "./arrangement.ts";

/** Most moves look at places so near, since far ones seldom pay. */
const NEAR = 4;
const NEAR_JOBS = 24;

export type Move = (arrangement: Arrangement, random: Random) => boolean;

/** A job joins another load. */
export const join: Move = (arrangement, random) => {
  const { day, loadOf } = arrangement;
  const job = random.below(day.count);
  const load = otherLoad(arrangement, loadOf[job]!, random);
  if (load < 0 || !arrangement.takes(load, day.family[job]!, day.areaDm2[job]!)) return false;
  arrangement.remove(job);
  arrangement.add(load, job);
  return true;
};

/** A job gets a load of its own, near its old one. */
export const part: Move = (arrangement, random) => {
  const { day, loadOf } = arrangement;
  const job = random.below(day.count);
  const load = loadOf[job]!;
  if (arrangement.jobsIn[load]! < 2) return false;
  const place = nearPlace(arrangement.placeOf[load]!, arrangement.loads + 1, random);
  arrangement.remove(job);
  arrangement.add(arrangement.open(place, day.family[job]!), job);
  return true;
};

/** Two jobs of different loads change places. */
export const exchange: Move = (arrangement, random) => {
  const { day, loadOf, jobsIn } = arrangement;
  const one = random.below(day.count);
  const oneLoad = loadOf[one]!;
  const load = otherLoad(arrangement, oneLoad, random);
  if (load < 0) return false;
  const other = arrangement.jobAt(load, random.below(jobsIn[load]!));
  const grows = day.areaDm2[other]! - day.areaDm2[one]!;
  if (!arrangement.takes(oneLoad, day.family[other]!, grows)) return false;
  if (!arrangement.takes(load, day.family[one]!, -grows)) return false;
  arrangement.exchange(one, other);
  return true;
};

/** A load goes to another place in the order. */
export const shift: Move = (arrangement, random) => {
  if (arrangement.loads < 2) return false;
  const from = random.below(arrangement.loads);
  const to = random.below(2) === 0 ? random.below(arrangement.loads) : nearPlace(from, arrangement.loads, random);
  if (to === from) return false;
  arrangement.shift(arrangement.order[from]!, to);
  return true;
};

/** All jobs of a load join another. */
export const merge: Move = (arrangement, random) => {
  const { order, areaDm2, family } = arrangement;
  const load = order[random.below(arrangement.loads)]!;
  const into = otherLoad(arrangement, load, random);
  if (into < 0 || !arrangement.takes(into, family[load]!, areaDm2[load]!)) return false;
  for (const job of arrangement.jobsOf(load)) {
    arrangement.remove(job);
    arrangement.add(into, job);
  }
  return true;
};

/** A load becomes two: the jobs that come, promise or bake later than one of them go to a load after it or before. */
export const split: Move = (arrangement, random) => {
  const { day, order, jobsIn, placeOf } = arrangement;
  const load = order[random.below(arrangement.loads)]!;
  if (jobsIn[load]! < 2) return false;
  const by = [day.release, day.due, day.minutes][random.below(3)]!;
  const limit = by[arrangement.jobAt(load, random.below(jobsIn[load]!))]!;
  const later = arrangement.jobsOf(load).filter((job) => by[job]! > limit);
  if (later.length === 0) return false;
  const fresh = arrangement.open(placeOf[load]! + random.below(2), day.family[later[0]!]!);
  for (const job of later) {
    arrangement.remove(job);
    arrangement.add(fresh, job);
  }
  return true;
};

/** A job pushes another out of its load, which joins a third or gets a load of its own. */
export const push: Move = (arrangement, random) => {
  const { day, loadOf, areaDm2, jobsIn } = arrangement;
  const job = random.below(day.count);
  const load = otherLoad(arrangement, loadOf[job]!, random);
  if (load < 0 || jobsIn[load]! < 1) return false;
  const pushed = arrangement.jobAt(load, random.below(jobsIn[load]!));
  if (!arrangement.takes(load, day.family[job]!, day.areaDm2[job]! - day.areaDm2[pushed]!)) return false;
  const third = otherLoad(arrangement, load, random);
  if (third < 0 || third === loadOf[job] || areaDm2[third]! === 0) return false;
  if (!arrangement.takes(third, day.family[pushed]!, day.areaDm2[pushed]!)) return false;
  arrangement.remove(job);
  arrangement.add(load, job);
  arrangement.remove(pushed);
  arrangement.add(third, pushed);
  return true;
};

/** Another load, most often one nearby; -1 where the lot fell on the same one. */
function otherLoad(arrangement: Arrangement, load: number, random: Random): number {
  const { order, loads, placeOf, loadOf, day } = arrangement;
  let other: number;
  if (day.families > 1 && random.below(2) === 0) {
    const alike = day.alike[arrangement.family[load]!]!;
    const rank = day.rankOf[arrangement.jobAt(load, 0)]!;
    const at = random.below(3) === 0 ? random.below(alike.length) : nearPlace(rank, alike.length, random, NEAR_JOBS);
    other = loadOf[alike[at]!]!;
  } else {
    other = order[random.below(3) === 0 ? random.below(loads) : nearPlace(placeOf[load]!, loads, random)]!;
  }
  return other === load ? -1 : other;
}

/** A place at most NEAR away, inside the order. */
function nearPlace(place: number, places: number, random: Random, near = NEAR): number {
  const at = place - near + random.below(2 * near + 1);
  return Math.max(0, Math.min(places - 1, at));
}
