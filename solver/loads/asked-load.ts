/**
 * One load of a day of few pans: the more often it is asked for, the closer it is looked at. Most loads that are tried need no more
 * than a glance, and the few that a search comes back to thousands of times are those that the best plans hang on.
 */
import type { Recipe } from "./recipe.ts";

/** How ways to stand are laid out: `effort` in search steps, see fit/load-fit.ts. */
export interface Effort {
  readonly effort: number;
  readonly seed: number;
}

/** By how often a load has been asked for. */
const LOOKS: readonly (Effort & { readonly asked: number })[] = [
  { asked: 16, effort: 0, seed: 1 },
  { asked: 64, effort: 400, seed: 2 },
  { asked: 256, effort: 1000, seed: 3 },
  { asked: 1024, effort: 2000, seed: 4 },
  { asked: 2048, effort: 2000, seed: 5 },
  { asked: 4096, effort: 4000, seed: 6 },
  { asked: 16384, effort: 8000, seed: 7 },
];
/** Then a load that has a recipe already is looked at for the first time, where some chambers do not bake it. */
const ASKED_THOUGH_KNOWN = 1024;
/** Arrangements kept. */
const MOST_RECIPES = 4;

/** What is needed to look closer. */
export interface CloseLook {
  /** Ways to stand, the most promising first: the shelves of each kind as a place in `shelfSets`. */
  readonly ways: () => readonly (readonly number[])[];
  /** Laid out so; undefined where no room was found. */
  readonly laid: (way: readonly number[], effort: Effort) => Recipe | undefined;
  /** Per chamber looked at the minutes of its quickest firing; Infinity where there is none. */
  readonly minutes: (recipe: Recipe) => readonly number[];
}

/** A recipe and what `minutes` says of it. */
interface Timed {
  readonly recipe: Recipe;
  readonly minutes: readonly number[];
}

export class AskedLoad {
  readonly #look: CloseLook;
  /** Found without a closer look. */
  readonly #plain: Recipe | undefined;
  #recipe: Recipe | undefined;
  #asked = 0;
  #looks = 0;
  /** Not laid out yet. */
  #ways: readonly (readonly number[])[] | undefined;

  constructor(plain: Recipe | undefined, look: CloseLook) {
    this.#look = look;
    this.#plain = plain;
    this.#recipe = plain;
  }

  /** The recipe as far as it is known, which is asked for once more. */
  glance(): Recipe | undefined {
    this.#asked++;
    const next = LOOKS[this.#looks];
    if (next === undefined || this.#asked < next.asked) return this.#recipe;
    if (this.#plain !== undefined) {
      if (this.#asked < ASKED_THOUGH_KNOWN) return this.#recipe;
      if (this.#looks === 0 && this.#look.minutes(this.#plain).every(isBaked)) this.#looks = LOOKS.length;
    }
    const look = LOOKS[this.#looks];
    if (look !== undefined) this.#lookCloser(look);
    return this.#recipe;
  }

  /** The same after one closer look at least. */
  recipe(): Recipe | undefined {
    if (this.#looks === 0 && this.#plain === undefined) this.#lookCloser(LOOKS[0]!);
    return this.glance();
  }

  /** As if it had been asked for ever more often, until there is a recipe or a look would take more than `mostEffort`. */
  study(mostEffort: number): Recipe | undefined {
    for (let next = LOOKS[this.#looks]; this.#recipe === undefined && next !== undefined; next = LOOKS[this.#looks]) {
      if (next.effort > mostEffort) break;
      this.#lookCloser(next);
    }
    return this.#recipe;
  }

  #lookCloser(effort: Effort): void {
    this.#looks++;
    this.#ways ??= this.#look.ways();
    const left: (readonly number[])[] = [];
    const found: Timed[] = [];
    for (const way of this.#ways) {
      const recipe = this.#look.laid(way, effort);
      if (recipe === undefined) left.push(way);
      else found.push({ recipe, minutes: this.#look.minutes(recipe) });
    }
    this.#ways = left;
    const baked = found.filter(({ minutes }) => minutes.some(isBaked));
    if (baked.length > 0) this.#keep(baked);
    if (baked.length > 0 || left.length === 0) this.#looks = LOOKS.length;
  }

  /** Those that are the quickest from some chamber; the one that most chambers bake stands for all. */
  #keep(found: readonly Timed[]): void {
    const plain = this.#plain && { recipe: this.#plain, minutes: this.#look.minutes(this.#plain) };
    const all = plain === undefined ? found : [plain, ...found];
    const least = all[0]!.minutes.map((_, at) => Math.min(...all.map(({ minutes }) => minutes[at]!)));
    const kept = all
      .filter((one) => one === plain || one.minutes.some((minutes, at) => isBaked(minutes) && minutes === least[at]))
      .sort((one, other) => other.minutes.filter(isBaked).length - one.minutes.filter(isBaked).length)
      .slice(0, MOST_RECIPES);
    // Recipes that stand in plans already stay as they are.
    const recipes = kept.map(({ recipe }) => ({ ...recipe, others: [] as Recipe[] }));
    for (const one of recipes) one.others.push(...recipes.filter((other) => other !== one));
    this.#recipe = recipes[0];
  }
}

function isBaked(minutes: number): boolean {
  return minutes < Infinity;
}
