/**
 * How finely the exact search tells firings apart. Whatever is finer is taken together as the best of both, so that a coarse
 * search ends sooner on a lower bound; none of this makes a bound unsafe.
 */
export interface Grain {
  /** Width of the buckets of chamber temperature at door opening, K. */
  readonly bucketK: number;
  /** Buckets taken together where the chamber cools down for a load that overbakes. */
  readonly coolerStride: number;
  /** Cooler chambers are looked at for the sake of pans that come out of them cooler, too. */
  readonly coolerToo: boolean;
  /** Preheats to set-points over so many K are taken together; below the oven's step each is looked at by itself. */
  readonly preheatK: number;
  /** Factor on the distances, kWh, K and minutes, within which gathered.ts takes firings of one load for one. */
  readonly alike: number;
  /** Ways to fire one load that differ by no more than all of these are one way. */
  readonly kWh: number;
  readonly hotK: number;
  readonly coolK: number;
  readonly handMinutes: number;
  readonly openMinutes: number;
  /** Kinds of a load, the slowest and then the quickest, whose shelves are told apart; the others may stand anywhere at once. */
  readonly toldApart: number;
  /**
   * Overbaking forgiven, minutes and K, where pans ride along: a load that loses pans heats differently, and must not be ruled
   * out by a hair. 0 where loads are looked at as they are: then cooler chambers too for what overbakes.
   */
  readonly grace: number;
  /** Chambers looked at together where two kinds are asked whether any firing takes both, K. */
  readonly pairStepK: number;
}

export const COARSE: Grain = {
  bucketK: 10,
  coolerStride: 1,
  coolerToo: false,
  preheatK: 20,
  alike: 1,
  kWh: 0.15,
  hotK: 8,
  coolK: 24,
  handMinutes: 0.5,
  openMinutes: 3,
  toldApart: 0,
  grace: 2,
  pairStepK: 110,
};

/** For loads as they are. */
export const COARSE_AS_IS: Grain = { ...COARSE, grace: 0 };

/**
 * For some of the pans, and for more than the others end with: most loads are one label, and what that gives away is less than
 * what an open search does. Pans left out may have slowed the chamber down.
 */
export const COARSEST: Grain = {
  ...COARSE,
  bucketK: 30,
  preheatK: 60,
  alike: 4,
  kWh: 1,
  hotK: 60,
  coolK: 100,
  handMinutes: 2,
  openMinutes: 10,
  grace: 3,
};

/** For so many that to ask every two kinds closely takes longer than it gains. */
export const COARSEST_OF_MANY: Grain = { ...COARSEST, pairStepK: 450 };

/** For lone bakes, whatever stands beside them. */
export const COARSE_ALONE: Grain = { ...COARSE, grace: 3 };

/** For loads as they are, like the next. */
export const FINE: Grain = {
  bucketK: 4,
  coolerStride: 5,
  coolerToo: true,
  preheatK: 0,
  alike: 0.25,
  kWh: 0.03,
  hotK: 3,
  coolK: 12,
  handMinutes: 0.15,
  openMinutes: 1,
  toldApart: 2,
  grace: 0,
  pairStepK: 110,
};

/** Where the fine search has ended soon. */
export const FINEST: Grain = {
  ...FINE,
  bucketK: 2,
  coolerStride: 10,
  alike: 0.1,
  kWh: 0.01,
  hotK: 1,
  coolK: 6,
  handMinutes: 0.05,
};
