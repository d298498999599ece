/**
 * Stage 2 of plan.ts: can these kinds of bake share one firing of this oven, on which shelves, and how would it be
 * fired? A recipe answers once per multiset of kinds; the sequence asks it for firings at the chamber temperature met.
 */
import type { FiringOption, SetPointLimit } from "../heat/options.ts";
import { firingOptions, firingUnloadedFrom, isFireable } from "../heat/options.ts";
import { overbakesSome } from "../heat/overbakes.ts";
import type { DayModel } from "../day/day-model.ts";
import type { Place } from "../fit/shelf-fit.ts";
import type { ThermalCycle } from "../shop.ts";
import type { Looking } from "./arrange.ts";
import { Company } from "./company.ts";
import { AskedLoad } from "./asked-load.ts";
import { closeLook } from "./close-look.ts";
import { ShelvesApart } from "./keep-apart.ts";
import type { ShelfWays } from "./shelf-ways.ts";
import { shelfWays } from "./shelf-ways.ts";
import { ToldFits } from "./told-fits.ts";
import type { Recipe } from "./recipe.ts";
import { heatOf, likelyStarts, recipesFor } from "./recipe.ts";

/** Width of the chamber-temperature buckets, K: wide while searching, narrow for plans that are kept. */
export const SEARCH_BUCKET_K = 5;
export const EXACT_BUCKET_K = 0.001;

/** Search steps per shelf arrangement beyond the greedy one: a search meets too many loads to dwell on any. */
export const SEARCH_PACKING_EFFORT = 0;

/** For plans that are kept a firing that takes more gas is a choice where it leaves the chamber so much warmer or cooler, K. */
const EXACT_ALIKE_K = 0.25;

/** While searching, set-points this far apart stand for those between them, K. */
const SEARCH_SET_POINT_STEP_K = 15;

/** On days of more pans a search makes more of its time with loads that need no closer look. */
const MOST_CLOSELY_PANS = 45;

/** On days of more pans what is known of some loads tells others: asking each takes longer than it gains. */
const MOST_PANS_ASKED_EACH = 24;

/**
 * The book that looks closer where a plain one refuses: loads dealt out to shelves, and kinds kept apart. A plain one where no oven has
 * both shelves and a chamber that warms up.
 */
export function closeBook(day: DayModel, packingEffort: number): RecipeBook {
  const plain = new RecipeBook(day, packingEffort);
  const gains = day.request.ovens.some(({ space, cycle }) => space.kind === "shelves" && cycle.kind === "thermal");
  return gains ? new RecipeBook(day, packingEffort, plain) : plain;
}

/** All recipes of a day, made when first asked for. */
export class RecipeBook {
  readonly day: DayModel;
  /** What this one looks closer than; itself where there is none. */
  readonly plain: RecipeBook;
  /** `fits` tells of loads that take a closer look too: there are few enough pans for a search to gain by them. */
  readonly fitsClosely: boolean;
  /** Asked before loads are. */
  readonly company: Company;
  /** Nothing is told of a load by others: there are few enough pans to ask of each. */
  readonly asksEach: boolean;
  /** On days of more pans what is told of loads that are refused is doubted when they are asked for over and over. */
  doubtsTold = false;
  readonly #effort: number;
  /** Without what the plain one has. */
  readonly #known = new Map<string, Recipe | null>();
  /** Of `recipeOn`; apart from the others, whose keys are characters of any number. */
  readonly #told = new Map<string, Recipe | null>();
  readonly #toldFits: ToldFits;
  /** Per oven, in a book that looks closer and `asksEach`; undefined where shelves need not be told apart, or are too many. */
  readonly #ways: readonly (ShelfWays | undefined)[];
  /** The same where it does not. */
  readonly #apart: readonly (ShelvesApart | undefined)[];
  /** By oven and kinds, in ovens with `#ways`. */
  readonly #askedFor = new Map<string, AskedLoad>();

  /** `packingEffort`: search steps per shelf arrangement, see fit/load-fit.ts. `plain`: asked first, see `closeBook`. */
  constructor(day: DayModel, packingEffort: number, plain?: RecipeBook) {
    this.day = day;
    this.plain = plain ?? this;
    this.fitsClosely = plain !== undefined && day.pans.length <= MOST_CLOSELY_PANS;
    this.asksEach = day.pans.length <= MOST_PANS_ASKED_EACH;
    this.company = new Company(this);
    const { ovens, ambientC } = day.request;
    this.#toldFits = new ToldFits(this, (oven, kinds) => this.recipe(oven, kinds) !== undefined);
    this.#effort = packingEffort;
    this.#ways = ovens.map(({ space, cycle }) =>
      plain !== undefined && this.asksEach && space.kind === "shelves" && cycle.kind === "thermal"
        ? shelfWays(space, cycle, ambientC)
        : undefined,
    );
    this.#apart = ovens.map(({ space, cycle }, oven) =>
      plain !== undefined && !this.#ways[oven] && space.kind === "shelves" && cycle.kind === "thermal"
        ? new ShelvesApart(space, cycle, ambientC)
        : undefined,
    );
  }

  /** The recipe of these kinds (ascending) in that oven; undefined when they cannot share a firing there. */
  recipe(oven: number, kinds: readonly number[]): Recipe | undefined {
    if (this.#ways[oven] !== undefined) return this.#asked(oven, kinds).recipe();
    const plain = this.plain === this ? undefined : this.plain.recipe(oven, kinds);
    if (plain !== undefined) return plain;
    const key = String.fromCharCode(oven, ...kinds);
    const known = this.#known.get(key);
    if (known !== undefined) return known ?? undefined;
    const made = this.#make(oven, kinds) ?? null;
    this.#known.set(key, made);
    return made ?? undefined;
  }

  /**
   * The same at once as if it had been asked for often: whoever told of the load may have done so. `mostEffort`: search steps of one
   * layout, see fit/load-fit.ts.
   */
  study(oven: number, kinds: readonly number[], mostEffort = Infinity): Recipe | undefined {
    return this.#ways[oven] === undefined ? this.recipe(oven, kinds) : this.#asked(oven, kinds).study(mostEffort);
  }

  #asked(oven: number, kinds: readonly number[]): AskedLoad {
    const key = String.fromCharCode(oven, ...kinds);
    const known = this.#askedFor.get(key);
    if (known !== undefined) return known;
    const look = closeLook(this, this.#ways[oven]!, oven, kinds);
    const made = new AskedLoad(this.plain.recipe(oven, kinds), look);
    this.#askedFor.set(key, made);
    return made;
  }

  /**
   * Whether they (ascending) can share a firing there, as far as searches care: see `ToldFits`, `AskedLoad`, `asksEach`,
   * `fitsClosely`.
   */
  fits(oven: number, kinds: readonly number[]): boolean {
    if (this.plain !== this && !this.fitsClosely) return this.plain.fits(oven, kinds);
    if (this.#ways[oven] !== undefined) return this.#asked(oven, kinds).glance() !== undefined;
    return this.asksEach ? this.recipe(oven, kinds) !== undefined : this.#toldFits.fits(oven, kinds);
  }

  /** The same with the shelves told for each different kind, as a place in `shelfSets`; undefined also where none fit so. */
  recipeOn(oven: number, kinds: readonly number[], shelfSet: readonly number[]): Recipe | undefined {
    const key = `${String.fromCharCode(oven, ...kinds)}/${shelfSet.join()}`;
    const known = this.#told.get(key);
    if (known !== undefined) return known ?? undefined;
    const made = recipesFor(this.day, oven, kinds, { ...this.#packing(oven), shelfSet }).next().value ?? null;
    this.#told.set(key, made);
    return made ?? undefined;
  }

  /** Keeps a layout found elsewhere as the recipe of these kinds (ascending) in an oven with a fixed cycle and shelves. */
  lay(oven: number, kinds: readonly number[], places: readonly Place[]): void {
    for (const recipe of recipesFor(this.day, oven, kinds, { places }))
      this.plain.#known.set(String.fromCharCode(oven, ...kinds), recipe);
  }

  /** Firings of a recipe for a chamber at `chamberC` when the door opens, to the nearest bucket. */
  firings(recipe: Recipe, chamberC: number, bucketK: number): readonly FiringOption[] {
    const { cycle } = this.day.request.ovens[recipe.oven]!;
    if (cycle.kind !== "thermal") return [];
    const firings = (recipe.firings ??= new Map());
    let known = firings.get(bucketK);
    if (known === undefined) firings.set(bucketK, (known = new Map()));
    const bucket = Math.round(chamberC / bucketK);
    const found = known.get(bucket);
    if (found !== undefined) return found;
    const options = this.#options(recipe, cycle, bucket * bucketK, bucketK >= SEARCH_BUCKET_K);
    known.set(bucket, options);
    return options;
  }

  /**
   * Of `firings` those at one set-point, °C. The search's lists pass over most set-points; where they lack this one, it is worked
   * out: sequences that the last hand has been over are told to the step of the oven.
   */
  firingsAt(recipe: Recipe, chamberC: number, bucketK: number, setPointC: number): readonly FiringOption[] {
    const listed = this.firings(recipe, chamberC, bucketK).filter((option) => option.setPointC === setPointC);
    const { cycle } = this.day.request.ovens[recipe.oven]!;
    if (listed.length > 0 || bucketK < SEARCH_BUCKET_K || cycle.kind !== "thermal") return listed;
    const bucket = Math.round(chamberC / bucketK);
    const key = `${bucket}/${setPointC}`;
    const between = (recipe.between ??= new Map());
    const known = between.get(key);
    if (known !== undefined) return known;
    const only = { lowSetPointC: setPointC, highSetPointC: setPointC };
    const made = firingOptions(cycle, this.day.request.ambientC, recipe.members, bucket * bucketK, only);
    between.set(key, made);
    return made;
  }

  /**
   * At the set-point of `quick`, which is one of `firings` for the same chamber (°C, K): the soonest burner-off for a door that opens
   * `laterMinutes` later, or as soon after that as it may. Undefined where none keeps every window.
   */
  coasted(
    recipe: Recipe,
    chamberC: number,
    bucketK: number,
    quick: FiringOption,
    laterMinutes: number,
  ): FiringOption | undefined {
    const { cycle } = this.day.request.ovens[recipe.oven]!;
    if (cycle.kind !== "thermal") return undefined;
    const { ambientC } = this.day.request;
    const bucket = Math.round(chamberC / bucketK);
    const { setPointC } = quick;
    const unloadMinutes = quick.unloadMinutes + laterMinutes;
    const key = `${bucket}/${setPointC}/${unloadMinutes}`;
    const isKept = bucketK >= SEARCH_BUCKET_K;
    const known = isKept ? recipe.coasts?.get(key) : undefined;
    if (known !== undefined) return known ?? undefined;
    const made = firingUnloadedFrom(cycle, ambientC, recipe.members, bucket * bucketK, setPointC, unloadMinutes);
    if (isKept) (recipe.coasts ??= new Map()).set(key, made ?? null);
    return made;
  }

  /** Few set-points where that is enough, all of them where few offer none. */
  #options(recipe: Recipe, cycle: ThermalCycle, chamberC: number, isSearching: boolean): readonly FiringOption[] {
    const { ambientC } = this.day.request;
    if (isSearching) {
      const options = firingOptions(cycle, ambientC, recipe.members, chamberC, fewSetPoints(cycle));
      if (options.length > 0) return options;
    }
    return firingOptions(
      cycle,
      ambientC,
      recipe.members,
      chamberC,
      isSearching ? {} : { alikeChamberK: EXACT_ALIKE_K },
    );
  }

  #make(oven: number, kinds: readonly number[]): Recipe | undefined {
    const { cycle } = this.day.request.ovens[oven]!;
    for (const recipe of this.#bakeable(oven, kinds)) {
      if (cycle.kind === "fixed") return recipe;
      for (const startC of likelyStarts(cycle, this.day.request.ambientC))
        if (this.#isFireable(recipe, cycle, startC)) return recipe;
    }
    return undefined;
  }

  /** Arrangements that heat differently, without those in which some pans must get too hot and those that the plain book has. */
  *#bakeable(oven: number, kinds: readonly number[]): Generator<Recipe> {
    const { cycle } = this.day.request.ovens[oven]!;
    const { ambientC } = this.day.request;
    const before = this.plain === this ? [] : [...this.plain.#bakeable(oven, kinds)];
    for (const recipe of recipesFor(this.day, oven, kinds, this.#packing(oven))) {
      if (cycle.kind === "thermal") {
        if (before.length > 0) {
          const heat = heatOf(recipe);
          if (before.some((other) => heatOf(other) === heat)) continue;
        }
        if (overbakesSome(cycle, ambientC, recipe.members)) continue;
        before.push(recipe);
      }
      yield recipe;
    }
  }

  #packing(oven: number): Looking {
    return { effort: this.#effort, laying: this.#isDealt(oven) ? "dealt" : "quick", apart: this.#apart[oven] };
  }

  /** Of few pans only loads that are looked at closer are, of many none. */
  #isDealt(oven: number): boolean {
    if (this.day.pans.length > MOST_CLOSELY_PANS) return false;
    return this.plain !== this || !this.asksEach || this.day.request.ovens[oven]!.cycle.kind === "fixed";
  }

  /** Whether `firings` offers the search any, without working out all of them: most recipes asked for are never fired. */
  #isFireable(recipe: Recipe, cycle: ThermalCycle, chamberC: number): boolean {
    const { ambientC } = this.day.request;
    const bucketC = Math.round(chamberC / SEARCH_BUCKET_K) * SEARCH_BUCKET_K;
    return (
      isFireable(cycle, ambientC, recipe.members, bucketC, fewSetPoints(cycle)) ||
      isFireable(cycle, ambientC, recipe.members, bucketC)
    );
  }
}

function fewSetPoints({ setPointStepC }: ThermalCycle): SetPointLimit {
  return { setPointStepC: Math.max(1, Math.round(SEARCH_SET_POINT_STEP_K / setPointStepC)) * setPointStepC };
}
