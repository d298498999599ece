/** A search that is in line or under way. */
import type { PlanRow } from "../store/tables.ts";
import type { Child } from "./children.ts";
import type { Better } from "./messages.ts";

export type SearchState = PlanRow["state"];

export type Told =
  { readonly kind: "better"; readonly better: Better } | { readonly kind: "ended"; readonly state: SearchState };

export interface Live {
  readonly id: string;
  readonly listeners: Set<(told: Told) => void>;
  child: Child | undefined;
  best: Better | undefined;
  stopped: boolean;
  deadline: NodeJS.Timeout | undefined;
  /** Writes of this search, one after the other. */
  saving: Promise<void>;
}
