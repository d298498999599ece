/**
 * Packing measured on published sets; run by hand:
 *   npx tsx tests/bench/fit.bench.ts <folder with equal_circles_square.json, circle_strip.json, rect_2dbpp.json, best_known.json> [steps]
 * Every layout is checked by the tests' own arithmetic; a fault ends the run. Times are of one core.
 */
import { readFileSync } from "node:fs";
import type { Footprint } from "../../solver/fit/footprint.ts";
import { packIntoLoads } from "../../solver/fit/load-count.ts";
import { packLoad } from "../../solver/fit/load-fit.ts";
import { seededDice } from "../../solver/fit/seeded.ts";
import { fitShelf } from "../../solver/fit/shelf-fit.ts";
import type { ShelfSpace } from "../../solver/shop.ts";
import { disc, loadsOf, rectangle, times, worstMissCm } from "../unit/solver/fit/own-check.ts";

const folder = process.argv[2];
if (!folder) throw new Error("Give the folder of the published sets.");
const steps = Number(process.argv[3] ?? 30000);

function instances<T>(file: string): T[] {
  return (JSON.parse(readFileSync(`${folder}/${file}.json`, "utf8")) as { instances: T[] }).instances;
}

function demandSound(width: number, depth: number, gap: number, layout: Parameters<typeof worstMissCm>[3]): void {
  const miss = worstMissCm(width, depth, gap, layout);
  if (!(miss <= 1e-6)) throw new Error(`A layout misses its distances by ${miss} cm.`);
}

function fits(width: number, depth: number, gap: number, footprints: Footprint[], effort: number): boolean {
  const spots = fitShelf(width, depth, gap, footprints, effort, 1);
  if (spots)
    demandSound(
      width,
      depth,
      gap,
      spots.map((spot, i) => ({ ...spot, footprint: footprints[i]! })),
    );
  return spots !== undefined;
}

function report(title: string, results: readonly { name: string; good: boolean; seconds: number }[]): void {
  const seconds = results.map((result) => result.seconds).sort((a, b) => a - b);
  const missed = results.filter((result) => !result.good).map((result) => result.name);
  const good = results.length - missed.length;
  const middle = seconds[seconds.length >> 1]!.toFixed(3);
  console.log(`${title}: ${good} of ${results.length}; median ${middle} s, worst ${seconds.at(-1)!.toFixed(2)} s`);
  if (missed.length > 0) console.log(`  missed: ${missed.join(" ")}`);
}

function timed<T>(work: () => T): { result: T; seconds: number } {
  const start = performance.now();
  const result = work();
  return { result, seconds: (performance.now() - start) / 1000 };
}

function equalCircles(): void {
  const sets = instances<{ name: string; n: number; bestSide: number }>("equal_circles_square");
  for (const factor of [1.02, 1.005, 1.001]) {
    const results = sets.map(({ n, name, bestSide }) => {
      const side = 10 * bestSide * factor;
      const { result, seconds } = timed(() => fits(side, side, 0, times(n, disc(10)), steps));
      return { name, good: result, seconds };
    });
    report(`equal circles in a square, side × ${factor}`, results);
  }
}

function strips(): void {
  type Strip = { name: string; width: number; radii: number[]; witness: [number, number][] };
  for (const factor of [1.05, 1.03, 1.02]) {
    const results = instances<Strip>("circle_strip").map(({ name, width, radii, witness }) => {
      const length = Math.max(...witness.map((centre, i) => centre[0] + radii[i]!));
      const pans = radii.map((radius) => disc(20 * radius));
      const { result, seconds } = timed(() => fits(10 * length * factor, 10 * width, 0, pans, steps));
      return { name, good: result, seconds };
    });
    report(`circles in a strip, length × ${factor}`, results);
  }
}

function bins(): void {
  type Known = { dataset: string; instance: string; objective: string; best_known: string | number };
  const parsed = JSON.parse(readFileSync(`${folder}/best_known.json`, "utf8")) as Known[] | Record<string, Known[]>;
  const rows = Array.isArray(parsed) ? parsed : Object.values(parsed).find((part) => Array.isArray(part))!;
  let found = 0;
  let known = 0;
  const results = instances<{ name: string; bin: [number, number]; items: [number, number][] }>("rect_2dbpp").map(
    (set) => {
      const row = rows.find((own) => own.objective === "bins_rotation_90" && own.instance === set.name)!;
      const [widthCm, depthCm] = set.bin;
      const shelf = { id: "floor", widthCm, depthCm, clearHeightCm: 1, maxKg: Infinity, offsetC: 0 };
      const pans = set.items.map(([w, d]) => ({ footprint: rectangle(w, d), heightCm: 1, massKg: 0 }));
      const space: ShelfSpace = { kind: "shelves", gapCm: 0, shelves: [shelf] };
      const { result, seconds } = timed(() => loadsOf(packIntoLoads(space, pans, times(pans.length, [0]), steps, 1)));
      const count = Math.max(...result) + 1;
      found += count;
      known += Number(row.best_known);
      return { name: `${set.name} ${count}/${row.best_known}`, good: count <= Number(row.best_known), seconds };
    },
  );
  report("rectangles into floors, at the fewest known", results);
  console.log(`  floors ${found}, fewest known ${known}: ${((found / known - 1) * 100).toFixed(2)} % more`);
}

function cutShelves(): void {
  for (const pieces of [6, 9, 14, 20]) {
    for (const effort of [0, 30, 300, 3000]) {
      const results = Array.from({ length: 100 }, (_, seed) => {
        const rectangles = cutUp(pieces, seed);
        const { result, seconds } = timed(() => fits(80, 80, 0, rectangles, effort));
        return { name: String(seed), good: result, seconds };
      });
      const missed = results.filter((result) => !result.good).length;
      const mean = (results.reduce((sum, result) => sum + result.seconds, 0) * 10).toFixed(2);
      console.log(`full shelf cut into ${pieces}, ${effort} steps: missed ${missed} of 100, mean ${mean} ms`);
    }
  }
}

function cutUp(pieces: number, seed: number): Footprint[] {
  const dice = seededDice(1000 * pieces + seed);
  const sides: [number, number][] = [[80, 80]];
  while (sides.length < pieces) {
    sides.sort((a, b) => b[0] * b[1] - a[0] * a[1]);
    const [piece] = sides.splice(dice.below(Math.min(2, sides.length)), 1);
    const [long, short] = [Math.max(...piece!), Math.min(...piece!)];
    const cut = Math.round(long * (2.5 + 5 * dice.next())) / 10;
    sides.push([cut, short], [long - cut, short]);
  }
  return sides.map(([w, d]) => (dice.next() < 0.5 ? rectangle(w, d) : rectangle(d, w)));
}

/** Random loads of four discs to one rectangle on three shelves, by the share of the floor they cover with their gaps. */
function mixedLoads(): void {
  const shelf = { id: "s", widthCm: 70, depthCm: 60, clearHeightCm: 18, maxKg: Infinity, offsetC: 0 };
  const space: ShelfSpace = { kind: "shelves", gapCm: 2, shelves: times(3, shelf) };
  for (const effort of [0, 30, 300, 3000]) {
    const bands = new Map<string, { good: boolean; name: string; seconds: number }[]>();
    for (let seed = 0; seed < 400; seed++) {
      const { pans, share } = mixedLoad(seed);
      const asked = pans.map((footprint) => ({ footprint, heightCm: 5, massKg: 1 }));
      const { result, seconds } = timed(() => packLoad(space, asked, times(pans.length, [0, 1, 2]), effort, 1));
      for (let at = 0; result.places && at < 3; at++) {
        const lying = result.places.map((place, i) => ({ ...place, footprint: pans[i]! }));
        demandSound(
          70,
          60,
          2,
          lying.filter((place) => place.shelf === at),
        );
      }
      const band = (Math.floor(share * 20) / 20).toFixed(2);
      bands.set(band, [...(bands.get(band) ?? []), { name: "", good: result.places !== undefined, seconds }]);
    }
    for (const band of [...bands.keys()].sort()) {
      const results = bands.get(band)!;
      const good = results.filter((result) => result.good).length;
      const mean = ((1000 * results.reduce((sum, result) => sum + result.seconds, 0)) / results.length).toFixed(2);
      console.log(`mixed load covering ${band}, ${effort} steps: ${good} of ${results.length}, mean ${mean} ms`);
    }
  }
}

function mixedLoad(seed: number): { pans: Footprint[]; share: number } {
  const dice = seededDice(seed);
  const target = 0.5 + 0.3 * dice.next();
  const floor = 3 * 68 * 58;
  const pans: Footprint[] = [];
  let area = 0;
  for (;;) {
    const pan = dice.next() < 0.8 ? disc(16 + dice.below(21)) : rectangle(16 + dice.below(10), 20 + dice.below(16));
    const own = pan.kind === "disc" ? (Math.PI / 4) * (pan.diameterCm + 2) ** 2 : (pan.widthCm + 2) * (pan.depthCm + 2);
    if (area + own > target * floor) return { pans, share: area / floor };
    area += own;
    pans.push(pan);
  }
}

equalCircles();
strips();
bins();
cutShelves();
mixedLoads();
