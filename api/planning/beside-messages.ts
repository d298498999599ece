/** What planning and the process beside it say to each other. Structured clones: a request may hold Infinity. */
import type { PlanRequest, Sequence } from "../../solver/index.ts";

export type ToBeside =
  /** Prove bounds on the cost of every plan of this request. */
  | { readonly type: "prove"; readonly request: PlanRequest; readonly cost: number }
  /** Search the same request from another seed, for so many seconds. */
  | { readonly type: "search"; readonly request: PlanRequest; readonly seed: number; readonly seconds: number }
  /** The best plan known costs so much; its sequence of loads for whoever searches. */
  | { readonly type: "better"; readonly cost: number; readonly sequence: Sequence };

export type FromBeside =
  | { readonly type: "bound"; readonly total: number }
  | { readonly type: "better"; readonly sequence: Sequence }
  /** Everything there was to do is done. */
  | { readonly type: "ended" }
  | { readonly type: "failed"; readonly message: string };
