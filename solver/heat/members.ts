/** The pans of a load as the oven sees them: alike pans on shelves of one offset count as one member. */
import type { Body } from "./body.ts";

/** Temperatures °C, soak in minutes. */
export interface Member {
  readonly count: number;
  readonly body: Body;
  /** Shelf air minus chamber. */
  readonly offsetC: number;
  readonly lowC: number;
  /** Highest metal temperature that coat and piece both stand: the lower of metalHighC and metalLimitC. */
  readonly highC: number;
  readonly soakLeastMinutes: number;
  readonly soakMostMinutes: number;
}
