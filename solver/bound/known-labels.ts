/** Labels that the exact search has met, by the bakes behind them, and which of two leaves no use for the other. */
import { lighter } from "./busy.ts";
import { chamberAfterIdle, chamberAfterVent } from "../heat/chamber.ts";
import type { Label } from "./label.ts";
import type { Shop } from "./hands-served.ts";
import type { NextDoor } from "./next-door.ts";
import { keepsHot } from "./oven-start.ts";

export class KnownLabels {
  readonly #shop: Shop;
  readonly #nextDoor: NextDoor;
  readonly #known = new Map<string, Label[]>();

  constructor(shop: Shop, nextDoor: NextDoor) {
    this.#shop = shop;
    this.#nextDoor = nextDoor;
  }

  /** Those met under a key of label.ts; the caller's to change. */
  of(key: string): Label[] {
    let known = this.#known.get(key);
    if (known === undefined) this.#known.set(key, (known = []));
    return known;
  }

  /** Those that the label beats are dead from now on. */
  dropWorse(known: Label[], label: Label): void {
    let kept = 0;
    for (const other of known) {
      if (this.beats(label, other)) other.dead = true;
      else known[kept++] = other;
    }
    known.length = kept;
  }

  /** Whatever follows `other` can follow `one` at no more cost: strict in every time and temperature. */
  beats(one: Label, other: Label): boolean {
    if (one.gasCost > other.gasCost || one.lastDone > other.lastDone || one.lastOpen > other.lastOpen) return false;
    for (let pan = 0; pan < one.release.length; pan++) if (one.release[pan]! > other.release[pan]!) return false;
    for (let oven = 0; oven < one.free.length; oven++) {
      const wait = other.free[oven]! - one.free[oven]!;
      if (wait < 0) return false;
      const { cycle } = this.#shop.task.day.request.ovens[oven]!;
      if (cycle.kind === "fixed") continue;
      const { ambientC } = this.#shop.task.day.request;
      const staysHot = keepsHot(this.#shop.task, one, oven);
      if (!staysHot && keepsHot(this.#shop.task, other, oven)) return false;
      if (chamberAfterIdle(cycle, ambientC, one.hotC[oven]!, staysHot ? 0 : wait) < other.hotC[oven]!) return false;
      if (chamberAfterVent(cycle, ambientC, one.coolC[oven]!, wait) > other.coolC[oven]!) return false;
    }
    if (!this.#nextDoor.beats(one, other)) return false;
    const colours = this.#shop.booth.changeoverMinutes > 0;
    return (
      lighter(one.sprays, other.sprays, this.#shop.booth, colours) &&
      lighter(one.owed, other.owed, this.#shop.booth, colours) &&
      lighter(one.preps, other.preps, this.#shop.bench, false) &&
      lighter(one.owedPreps, other.owedPreps, this.#shop.bench, false)
    );
  }
}
