/**
 * The exact search over sequences of loads: best first, never past a bound. Its lowest open floor is a bound on every plan of
 * its task at any time; once a finished sequence comes out on top there is nothing cheaper.
 */
import type { HandsAtWork } from "./busy.ts";
import { lateCost } from "../day/late-cost.ts";
import { Expansion } from "./expand.ts";
import { Families } from "./families.ts";
import type { Label, Rough } from "./label.ts";
import { keyOf } from "./label.ts";
import { KnownLabels } from "./known-labels.ts";
import { LabelFloor } from "./label-floor.ts";
import { LabelQueue } from "./label-queue.ts";
import type { Shop } from "./hands-served.ts";
import type { LoadSets } from "./load-sets.ts";
import { bestOfBoth, distance } from "./merge-labels.ts";
import { NextDoor } from "./next-door.ts";
import { atFirst } from "./oven-start.ts";
import type { ProofTask } from "./proof-task.ts";
import type { Root } from "./proof-root.ts";
import { rootOf } from "./proof-root.ts";

export interface ExactSearchOptions {
  /** Plans dearer than this are of no interest; asked anew at each step. */
  readonly upper: () => number;
  /** Per ticket of the day: ready no sooner. */
  readonly ticketBase: Float64Array;
  /** The last firing of any plan that leaves so many of the coats over ends no sooner. */
  readonly leastFinish: (left: number) => number;
  /** Plans that leave more coats over are not looked at. Default: any number. */
  readonly mostLeft?: number;
  /** See free-rides.ts. False: every load is looked at as it is. Slower, and some days end on far more. Default true. */
  readonly rides?: boolean;
  /**
   * Of a finer grain than the task's, without rides: a load is looked at with the task's grain where it may come next, and with
   * this one once it comes out on top, which few do.
   */
  readonly closer?: LoadSets;
  /** Labels no further apart than this, by the distance of merge-labels.ts, are taken for one. Default 0: none. */
  readonly together?: number;
  /** False only in tests: labels are then never dropped for better ones. */
  readonly dominance?: boolean;
}

export class ExactSearch {
  readonly task: ProofTask;
  readonly #options: ExactSearchOptions;
  readonly #floor: LabelFloor;
  readonly #expansion: Expansion;
  readonly #shop: Shop;
  readonly #queue = new LabelQueue();
  readonly #known: KnownLabels;
  readonly #roots: Root[] = [];
  labels = 0;
  expanded = 0;
  /** The cheapest finished sequence, once it is sure that nothing is cheaper. */
  goal: Label | undefined;
  /** Nothing below the upper bound is left. */
  exhausted = false;
  /** At the least, before any search. */
  readonly #dayCost: number;
  /** Lowest cost at which something was set aside because it was above the upper bound. */
  #cut = Infinity;

  constructor(task: ProofTask, options: ExactSearchOptions) {
    this.task = task;
    this.#options = options;
    const { booth, staffed, benches } = task.day.request;
    const atBooth: HandsAtWork = {
      hands: booth.sprayers,
      changeoverMinutes: booth.changeoverMinutes,
      freeChangeovers: booth.sprayers * staffed.length,
      clock: task.clock,
      breaks: task.breaks,
    };
    this.#shop = { task, booth: atBooth, bench: { ...atBooth, hands: benches, changeoverMinutes: 0 } };
    const families = new Families(task.sets, task);
    this.#floor = new LabelFloor(task, families, this.#shop.booth, this.#shop.bench);
    const nextDoor = new NextDoor(task, options.rides !== false);
    this.#expansion = new Expansion(this.#shop, nextDoor, options);
    this.#known = new KnownLabels(this.#shop, nextDoor);
    this.#addRoots();
    this.#dayCost = this.#queue.lowest;
  }

  /** No plan of the task costs less. */
  get bound(): number {
    if (this.goal !== undefined) return Math.min(this.goal.floor, this.#cut);
    return Math.min(this.#queue.lowest, this.#cut);
  }

  get ended(): boolean {
    return this.goal !== undefined || this.exhausted;
  }

  /** When the last firing ends at the soonest where all is baked; asked before the first step. */
  get leastFinish(): number {
    return this.#floor.lastFinish;
  }

  /** Takes the most promising label a load further; false once ended. */
  step(): boolean {
    if (this.ended) return false;
    const label = this.#queue.pop();
    if (label === undefined) {
      this.exhausted = true;
      return false;
    }
    if (label.dead) return true;
    const upper = this.#options.upper();
    if (label.floor >= upper) {
      this.#cut = Math.min(this.#cut, label.floor);
      this.exhausted = true;
      return false;
    }
    if (label.rough !== undefined) {
      this.#lookCloser(label.floor, label.rough, upper);
      return true;
    }
    if (isGoal(label)) {
      this.goal = label;
      return false;
    }
    this.expanded++;
    label.followed = true;
    const { children, later } = this.#expansion.next(label);
    for (const child of children) this.#offer(child, upper);
    if (later !== undefined) this.#wait(later, upper);
    return true;
  }

  /** A load's cheapest rough label comes out on top first, so that its floor holds for all that the closer look finds. */
  #lookCloser(floor: number, rough: Rough, upper: number): void {
    if (rough.looked) return;
    rough.looked = true;
    for (const child of this.#expansion.closer(rough)) {
      child.floor = Math.max(child.floor, floor);
      this.#offer(child, upper);
    }
  }

  #offer(child: Label, upper: number): void {
    this.labels++;
    child.floor = Math.max(child.floor, this.#floor.of(child) * KEEP);
    if (child.floor === Infinity) return;
    if (child.floor >= upper) {
      this.#cut = Math.min(this.#cut, child.floor);
      return;
    }
    if (this.#options.dominance !== false && !this.#isNew(child)) return;
    this.#queue.push(child);
  }

  /** The same label again, for what cannot be loaded yet. */
  #wait(later: Label, upper: number): void {
    later.floor = Math.max(later.floor, this.#floor.of(later) * KEEP);
    if (later.floor < upper) this.#queue.push(later);
    else this.#cut = Math.min(this.#cut, later.floor);
  }

  /** What is rough promises too much to beat anything. */
  #isNew(child: Label): boolean {
    const known = this.#known.of(keyOf(this.#roots.indexOf(child.root), child));
    if (known.some((other) => this.#known.beats(other, child))) return false;
    if (child.rough !== undefined) return true;
    this.#known.dropWorse(known, child);
    if (this.#mergedInto(known, child)) return false;
    known.push(child);
    return true;
  }

  /** The nearest that nothing has followed yet gives way to the best of both. */
  #mergedInto(known: Label[], child: Label): boolean {
    const { together = 0 } = this.#options;
    if (together === 0 || isGoal(child)) return false;
    let nearest = -1;
    let least = together;
    known.forEach((other, at) => {
      if (other.followed) return;
      const far = distance(other, child, this.#dayCost, least);
      if (far >= least) return;
      nearest = at;
      least = far;
    });
    const other = known[nearest];
    if (other === undefined) return false;
    const merged = bestOfBoth(this.#shop, other, child);
    if (merged === undefined) return false;
    merged.floor = Math.max(Math.min(other.floor, child.floor), this.#floor.of(merged) * KEEP);
    other.dead = true;
    known[nearest] = merged;
    this.#queue.push(merged);
    return true;
  }

  /** Every choice of what is left over that may be worth it. */
  #addRoots(): void {
    const { task } = this;
    const { pans } = task;
    const upper = this.#options.upper();
    const goals = Uint8Array.from(pans, ({ steps }) => steps.length);
    const { mostLeft = Infinity } = this.#options;
    const { nextOpenMinute } = task.day.request;
    const lateAtNextOpen = task.day.tickets.map((ticket) => lateCost(ticket, nextOpenMinute));
    const leftOf = task.day.tickets.map(() => 0);
    // `price`: of what is left over, and of their tickets, which are ready no sooner than work goes on.
    const choose = (pan: number, price: number, left: number): void => {
      if (left > mostLeft) return;
      if (price >= upper) {
        this.#cut = Math.min(this.#cut, price);
        return;
      }
      if (pan === pans.length) {
        this.#addRoot(Uint8Array.from(goals), upper);
        return;
      }
      const { steps, line, readyMinute, ticket } = pans[pan]!;
      const last = pans[pan - 1];
      const same = last?.line === line && last.steps.length === steps.length && last.readyMinute === readyMinute;
      const most = same ? goals[pan - 1]! : steps.length;
      const each = task.day.request.lines[line]!.leftOverCost / task.day.pans[pans[pan]!.pan]!.due.length;
      for (let goal = most; goal >= 0; goal--) {
        goals[pan] = goal;
        const over = steps.length - goal;
        const late = over > 0 && leftOf[ticket] === 0 ? lateAtNextOpen[ticket]! : 0;
        leftOf[ticket]! += over;
        choose(pan + 1, price + each * over + late, left + over);
        leftOf[ticket]! -= over;
      }
      goals[pan] = steps.length;
    };
    choose(0, 0, 0);
  }

  #addRoot(goals: Uint8Array, upper: number): void {
    const { task } = this;
    const root = rootOf(task, goals, this.#options);
    const { start } = task;
    const ovens = task.day.request.ovens.map((_, oven) => atFirst(task, oven));
    const label: Label = {
      root,
      before: undefined,
      set: undefined,
      members: [],
      floor: 0,
      gasCost: start.gasKWh * task.day.request.prices.gasPerKWh,
      lastOpen: -Infinity,
      notBefore: -Infinity,
      lastDone: start.lastDone,
      steps: new Uint8Array(goals.length),
      release: Float64Array.from(task.pans, ({ release }, pan) => (goals[pan] === 0 ? 0 : release)),
      rest: new Float64Array(goals.length),
      free: Float64Array.from(ovens, ({ free }) => free),
      hotC: Float64Array.from(ovens, ({ hotC }) => hotC),
      coolC: Float64Array.from(ovens, ({ coolC }) => coolC),
      soiled: Uint8Array.from(start.ovenSoiled),
      sprays: [],
      preps: [],
      owed: [],
      owedPreps: [],
      dead: false,
      followed: false,
      rough: undefined,
    };
    label.floor = this.#floor.of(label) * KEEP;
    if (label.floor >= upper) {
      this.#cut = Math.min(this.#cut, label.floor);
      return;
    }
    this.#roots.push(root);
    this.#queue.push(label);
  }
}

function isGoal({ steps, root }: Label): boolean {
  return steps.every((step, pan) => step === root.goals[pan]);
}

/** Rounding of sums must not lift a floor. */
const KEEP = 1 - 1e-9;
