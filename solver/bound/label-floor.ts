/** What is still to come after a label costs at least: finish by chains, hands and ovens, tickets by hands, gas by energy. */
import { lateCost } from "../day/late-cost.ts";
import type { HandsAtWork } from "./busy.ts";
import type { Families } from "./families.ts";
import { HandBag } from "./hand-bag.ts";
import { HandLate } from "./hand-late.ts";
import type { Label } from "./label.ts";
import { OwedBurns } from "./owed-burn.ts";
import type { ProofTask } from "./proof-task.ts";
import { StaffedClock } from "./staffed-clock.ts";
import type { Root } from "./proof-root.ts";

const TINY = 1e-6;

export class LabelFloor {
  readonly #task: ProofTask;
  readonly #families: Families;
  readonly #booth: HandBag;
  readonly #bench: HandBag;
  /** Bakes still to come as work of the ovens: of its load's minutes each bake takes the share that it fills. */
  readonly #ovens: HandBag;
  readonly #competing: HandLate;
  readonly #ready: Float64Array;
  readonly #alone: Float64Array;
  /** Of the label asked about last: its last done. */
  lastFinish = -Infinity;
  readonly #attended: boolean;
  readonly #leastLoad: number;
  #ovensFree = 0;
  readonly #burns: OwedBurns;
  /** Per kind: no door opens for it sooner, for the sake of a clean burn that is owed. */
  readonly #cleanFrom: Float64Array;

  constructor(task: ProofTask, families: Families, booth: HandsAtWork, bench: HandsAtWork) {
    this.#task = task;
    this.#families = families;
    const most = task.pans.reduce((sum, pan) => sum + pan.steps.length, 0);
    this.#booth = new HandBag(booth, most);
    this.#bench = new HandBag(bench, task.pans.length);
    this.#ovens = new HandBag(ovensAtWork(task), most);
    this.#competing = new HandLate(task.day.tickets);
    this.#ready = new Float64Array(task.day.tickets.length);
    this.#alone = new Float64Array(task.day.tickets.length);
    const { ovens } = task.day.request;
    this.#attended = ovens.every((oven) => oven.attended);
    this.#leastLoad = Math.min(...ovens.map(({ cycle }) => cycle.loadMinutes));
    this.#burns = new OwedBurns(task.day, task.times);
    this.#cleanFrom = new Float64Array(task.day.kinds.length);
  }

  /** Cost of every plan that goes on from the label; Infinity where none does. */
  of(label: Label): number {
    const { root } = label;
    const { request } = this.#task.day;
    this.#ready.set(root.ticketBase);
    this.#families.begin();
    this.#booth.count = 0;
    this.#bench.count = 0;
    this.#ovens.count = 0;
    this.#ovensFree = Math.min(...label.free);
    this.#readSoil(label);
    let finish = Math.max(label.lastDone, root.leastFinish);
    for (let pan = 0; pan < label.steps.length; pan++) {
      const ends = this.#chain(label, root, pan);
      if (ends > finish) finish = ends;
    }
    if (finish === Infinity) return Infinity;
    // What a bake takes of its load's minutes, all of which it is in the oven.
    for (let at = 0; at < this.#ovens.count; at++)
      this.#ovens.minutes[at]! *= this.#families.shareOf(this.#ovens.paints[at]!);
    const late = this.#late();
    this.#booth.addList(label.sprays);
    this.#booth.addList(label.owed);
    this.#bench.addList(label.preps);
    this.#bench.addList(label.owedPreps);
    finish = Math.max(finish, this.#booth.finish(), this.#bench.finish());
    finish = Math.max(finish, this.#families.finish(label, this.#attended ? this.#task.clock : undefined));
    this.lastFinish = finish;
    if (finish > this.#task.day.horizonEnd + TINY) return Infinity;
    const crew = (this.#task.clock.read(finish) * request.prices.crewPerHour) / 60;
    return label.gasCost + root.price + crew + this.#families.gasKWh(label) * request.prices.gasPerKWh + late;
  }

  /** By the hands or ovens that hold tickets up most. */
  #late(): number {
    const { tickets } = this.#task.day;
    for (let ticket = 0; ticket < tickets.length; ticket++)
      this.#alone[ticket] = lateCost(tickets[ticket]!, this.#ready[ticket]!);
    return Math.max(
      this.#competing.cost(this.#booth, this.#alone),
      this.#competing.cost(this.#bench, this.#alone),
      this.#competing.cost(this.#ovens, this.#alone),
    );
  }

  /** Walks one pan to its goal; answers its last done. */
  #chain(label: Label, root: Root, pan: number): number {
    const { steps, ticket, readyMinute, prepMinutes } = this.#task.pans[pan]!;
    const { staffed, breaks, day } = this.#task;
    const goal = root.goals[pan]!;
    const whole = goal === steps.length ? ticket : -1;
    const tails = root.tails[pan]!;
    const readyTails = root.readyTails[pan]!;
    const bakeTails = root.bakeTails[pan]!;
    const bakeReadyTails = root.bakeReadyTails[pan]!;
    let release = label.release[pan]!;
    let done = -Infinity;
    if (label.steps[pan] === 0 && goal > 0 && prepMinutes > 0) {
      const { sprayMinutes } = steps[0]!;
      this.#bench.add(readyMinute, prepMinutes, 0, sprayMinutes + tails[0]!, sprayMinutes + readyTails[0]!, whole);
    }
    for (let step = label.steps[pan]!; step < goal; step++) {
      const { sprayMinutes, flashMinutes, doneMinutes, nextMinutes, ovenMinutes, kind, paint } = steps[step]!;
      let end = release;
      if (sprayMinutes > 0) {
        let head = Math.ceil(release - TINY);
        if (breaks) head = staffed.fit(head, sprayMinutes);
        if (head < 0) return Infinity;
        end = head + sprayMinutes;
        this.#booth.add(head, sprayMinutes, paint, tails[step]!, readyTails[step]!, whole);
      }
      let open = Math.max(label.notBefore, this.#cleanFrom[kind]!, Math.ceil(end + flashMinutes - TINY));
      if (breaks) {
        open = staffed.fit(open, this.#attended ? Math.ceil(doneMinutes - flashMinutes - TINY) : this.#leastLoad);
        if (open < 0) return Infinity;
      }
      this.#families.add(kind, open, step === goal - 1 && !this.#task.isPart);
      this.#ovens.add(
        Math.max(this.#ovensFree, this.#heatedFrom(open, ovenMinutes - (doneMinutes - flashMinutes))),
        ovenMinutes,
        kind,
        bakeTails[step]!,
        bakeReadyTails[step]!,
        whole,
      );
      done = open + doneMinutes - flashMinutes;
      release = open + nextMinutes - flashMinutes;
    }
    if (goal > 0 && whole >= 0) {
      const ready = release + day.request.finishMinutes;
      if (ready > this.#ready[ticket]!) this.#ready[ticket] = ready;
    }
    return done;
  }

  /** Heated up for before the door opens, also before a break: so much sooner, by their clock, a bake may keep the ovens. */
  #heatedFrom(open: number, earlyMinutes: number): number {
    const { clock } = this.#ovens.work;
    return earlyMinutes === 0 ? open : Math.min(open, clock.minuteOf(clock.read(open) - earlyMinutes));
  }

  #readSoil({ soiled, free, hotC }: Label): void {
    this.#cleanFrom.fill(-Infinity);
    if (soiled.every((one) => one === 0)) return;
    this.#task.day.kinds.forEach(({ ovens }, kind) => {
      if (!this.#burns.needsClean[kind]!) return;
      const from = ovens.map((oven) =>
        soiled[oven] === 0 ? -Infinity : this.#burns.cleanFrom(oven, free[oven]!, hotC[oven]!),
      );
      this.#cleanFrom[kind] = Math.min(...from);
    });
  }
}

/** Ovens that run in staffed time only, or round the clock. */
function ovensAtWork({ day, clock, breaks }: ProofTask): HandsAtWork {
  const { ovens, planFromMinute } = day.request;
  const attended = ovens.every((oven) => oven.attended);
  const always = new StaffedClock([{ from: planFromMinute, to: Infinity }], planFromMinute);
  const hands = { hands: ovens.length, changeoverMinutes: 0, freeChangeovers: 0 };
  return attended ? { ...hands, clock, breaks } : { ...hands, clock: always, breaks: false };
}
