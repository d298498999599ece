/** What planning and the process that proves its bounds say to each other. Structured clones: a request may hold Infinity. */
import type { PlanRequest } from "../../solver/index.ts";

export type ToProver =
  | { readonly type: "prove"; readonly request: PlanRequest; readonly cost: number }
  /** The best plan known costs so much. */
  | { readonly type: "cost"; readonly cost: number };

export type FromProver =
  | { readonly type: "bound"; readonly total: number }
  /** Everything there is to prove has been. */
  | { readonly type: "ended" }
  | { readonly type: "failed"; readonly message: string };
