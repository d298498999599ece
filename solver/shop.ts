/**
 * What the solver is asked: one shop's day as plain data, read by every stage.
 *
 * Every instant is in minutes from the request's origin, the whole minute at or before `planFrom`; schedule instants
 * are whole, instants of physics and promises may carry fractions. °C, cm, kg, kW, kWh (gross) as the names say.
 */

export interface PlanRequest {
  /** When planning starts, 0 or a fraction below 1. Nothing starts before it; the crew's time counts from it. */
  readonly planFromMinute: number;
  /** When people are at work: sorted, disjoint, whole minutes. The last `to` is the end of the horizon. */
  readonly staffed: readonly Interval[];
  /** When work goes on after the horizon: tickets with a pan left over count as ready then. */
  readonly nextOpenMinute: number;
  readonly ambientC: number;
  readonly prices: Prices;
  readonly gas: Gas;
  /** Prep benches; 0 means no limit and no bench tasks. */
  readonly benches: number;
  readonly booth: Booth;
  /** Minutes of bench work per pan after its last coat's inspection. */
  readonly finishMinutes: number;
  readonly mixing: Mixing;
  readonly coatings: readonly Coating[];
  readonly ovens: readonly Oven[];
  readonly lines: readonly PanLine[];
  /** Loads planning must not touch, in order of door opening. */
  readonly held: readonly HeldLoad[];
  /** On a re-plan: where the plan in force had the first bake not yet begun of each pan. Empty otherwise. */
  readonly inForce: readonly InForce[];
  /** On a re-plan: bakes of the plan in force still to come, in order of door opening; a plan to begin from. */
  readonly inForceLoads?: readonly InForceLoad[];
}

export interface Interval {
  readonly from: number;
  readonly to: number;
}

/** Money in the day's currency. The rates of lateness and of left-over pans are resolved on each line. */
export interface Prices {
  readonly gasPerKWh: number;
  readonly crewPerHour: number;
  readonly movePerPan: number;
}

export interface Gas {
  readonly kind: string;
  readonly unit: string;
  readonly grossKWhPerUnit: number;
  readonly kgCO2ePerKWh: number;
  /** Units left in the bottle; null on mains. Only warns. */
  readonly unitsLeft: number | null;
  /** What the bottle can give, kW; null for no limit. Only warns. */
  readonly maxDrawKW: number | null;
}

export interface Booth {
  /** 0 means no limit and no booth tasks; the spray minutes still pass. */
  readonly sprayers: number;
  readonly changeoverMinutes: number;
  /** Metal temperature at which a pan may be handled, °C. */
  readonly handleAtC: number;
  /** Film coefficient while cooling to hand, W/m²K. */
  readonly coolFilmWPerM2K: number;
}

export interface Mixing {
  readonly rule: "any" | "same-group";
  readonly neverTogether: readonly (readonly [string, string])[];
  /** Null where the shop needs none. */
  readonly cleanBurn: CleanBurn | null;
}

export interface CleanBurn {
  readonly after: readonly string[];
  readonly before: readonly string[];
  readonly setPointC: number;
  readonly holdMinutes: number;
}

export interface Coating {
  readonly id: string;
  readonly name: string;
  readonly coats: readonly Coat[];
}

export interface Coat {
  readonly name: string;
  /** 0: a step without spraying (an outgassing bake), so no booth task. */
  readonly sprayMinutes: number;
  readonly flashMinutes: number;
  /** Longest time from the end of spraying to the oven door's closing; null for no limit. */
  readonly maxWaitMinutes: number | null;
  readonly mixGroup: string;
  readonly solventMlPerM2: number;
  readonly inspectMinutes: number;
  /** Indices into `ovens` it may go into; null for any. */
  readonly ovens: readonly number[] | null;
  /** What is in the gun; equal strings need no change-over. */
  readonly paint: string;
  /** Null only where every oven it may go into has a fixed cycle. */
  readonly window: CureWindow | null;
  /** Door-closed minutes in an oven with a fixed cycle; null where it cannot go into one. */
  readonly cycleMinutes: number | null;
}

/** Metal temperatures, °C, and minutes of soak. */
export interface CureWindow {
  readonly metalLowC: number;
  readonly metalHighC: number;
  readonly soakLeastMinutes: number;
  readonly soakMostMinutes: number;
}

export interface Oven {
  readonly id: string;
  readonly name: string;
  readonly cycle: ThermalCycle | FixedCycle;
  readonly space: ShelfSpace | AreaSpace;
  /** Infinity where not limited. */
  readonly maxLoadKg: number;
  readonly maxSolventMl: number;
  /** True: the whole firing lies inside one staffed interval. */
  readonly attended: boolean;
  /** Whole minute before which no fan runs, no burner is lit and no door opens, save for facts; undefined: in use. */
  readonly outUntilMinute?: number;
  /** Mix groups that stood in it before `planFrom`, since its last clean burn. */
  readonly lastGroups: readonly string[];
}

/** One chamber of the oven physics; the symbols are those of DEVELOPERS.md "Oven physics". */
export interface ThermalCycle {
  readonly kind: "thermal";
  readonly burnerKW: number;
  readonly efficiency: number;
  readonly heatCapacityKJPerK: number;
  readonly wallLossWPerK: number;
  readonly exhaustWPerK: number;
  readonly coastExhaustWPerK: number;
  readonly filmWPerM2K: number;
  readonly purgeMinutes: number;
  readonly loadMinutes: number;
  readonly unloadMinutes: number;
  readonly doorTauMinutes: number;
  readonly doorLimitC: number;
  readonly setPointMaxC: number;
  readonly setPointStepC: number;
  readonly guardC: number;
  readonly earlyMinutes: number;
  readonly slackMinutes: number;
  readonly startC: number;
}

export interface FixedCycle {
  readonly kind: "fixed";
  readonly loadMinutes: number;
  readonly unloadMinutes: number;
  /** Gas drawn while the door is closed, kW gross. */
  readonly gasKW: number;
}

export interface ShelfSpace {
  readonly kind: "shelves";
  readonly gapCm: number;
  readonly shelves: readonly Shelf[];
}

/** Only the sum of footprints counts, dm². */
export interface AreaSpace {
  readonly kind: "area";
  readonly dm2: number;
}

export interface Shelf {
  readonly id: string;
  readonly widthCm: number;
  readonly depthCm: number;
  readonly clearHeightCm: number;
  /** Infinity where not limited. */
  readonly maxKg: number;
  /** Shelf air minus chamber, °C. */
  readonly offsetC: number;
}

export type Shape =
  | { readonly kind: "disc"; readonly diameterCm: number }
  | { readonly kind: "rectangle"; readonly widthCm: number; readonly depthCm: number }
  | { readonly kind: "area"; readonly dm2: number };

/** `quantity` alike pans; each is planned on its own. */
export interface PanLine {
  readonly id: string;
  readonly ticket: string;
  readonly quantity: number;
  /** Index into `coatings`. */
  readonly coating: number;
  /** First coat still due, counted from 1. */
  readonly nextCoat: number;
  /** True: the next coat is on and flashed at `readyMinute`. */
  readonly sprayed: boolean;
  /** Whole minutes, rounded up. */
  readonly readyMinute: number;
  readonly prepMinutes: number;
  /** Null where nothing was promised. */
  readonly promisedMinute: number | null;
  /** Money per pan and hour late. */
  readonly latePerHour: number;
  /** Money per pan left over, times the share of its coats not baked. */
  readonly leftOverCost: number;
  readonly shape: Shape;
  readonly heightCm: number;
  readonly massKg: number;
  readonly specificHeatJPerKgK: number;
  /** What the piece itself survives, °C; Infinity where unknown. */
  readonly metalLimitC: number;
}

/** A load that is a fact (`fired`, `firing`) or that the user wants so (`pinned`). Whole minutes. */
export interface HeldLoad {
  readonly id: string;
  readonly oven: number;
  readonly kind: LoadKind;
  readonly state: "fired" | "firing" | "pinned";
  readonly setPointC: number | null;
  readonly ventMinutes: number;
  readonly doorOpens: number;
  readonly doorCloses: number;
  readonly burnerOff: number | null;
  readonly unload: number;
  readonly done: number;
  readonly pans: readonly HeldPan[];
}

export type LoadKind = "bake" | "clean burn" | "preheat";

/** `line` and `shelf` are indices (`shelf` null in an area oven); `item` and `coat` count from 1. */
export interface HeldPan {
  readonly line: number;
  readonly item: number;
  readonly coat: number;
  readonly shelf: number | null;
  readonly xCm: number | null;
  readonly yCm: number | null;
  readonly turned: boolean;
}

export interface InForce {
  readonly line: number;
  readonly item: number;
  /** Door opening of its first bake not yet begun, minutes. */
  readonly doorOpens: number;
}

/** `line` and `oven` are indices; `item` and `coat` count from 1. */
export interface InForceLoad {
  readonly oven: number;
  /** 0 in a fixed cycle. */
  readonly setPointC: number;
  /** Whole minute. */
  readonly doorOpens: number;
  readonly pans: readonly { readonly line: number; readonly item: number; readonly coat: number }[];
}
