/** Which plan an offer was made of: the same while nothing of it changes that anybody would notice. */
import { createHash } from "node:crypto";
import type { PlanFile } from "../contract/plan.ts";

export function offerOf({ cost, loads, prep, booth, tickets, leftOver }: PlanFile): string {
  const told = JSON.stringify([cost, loads, prep, booth, tickets, leftOver]);
  return createHash("sha256").update(told).digest("hex").slice(0, 16);
}
