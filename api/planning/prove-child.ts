/** The child process that proves: a request in, ever better bounds out, until there is nothing left to prove or it is killed. */
import { setImmediate as breathe } from "node:timers/promises";
import { proveBound } from "../../solver/index.ts";
import type { PlanRequest } from "../../solver/index.ts";
import type { FromProver, ToProver } from "./prover-messages.ts";

const SLICE_MS = 30;

let cost = Infinity;

const tell = (message: FromProver): void => void process.send?.(message);

process.on("message", (message: ToProver) => {
  cost = Math.min(cost, message.cost);
  if (message.type === "prove") void prove(message.request);
});
// Whoever planned is gone: nobody waits for the answer.
process.on("disconnect", () => process.exit(0));

async function prove(request: PlanRequest): Promise<void> {
  try {
    let told = 0;
    let sliceEnds = performance.now() + SLICE_MS;
    const proving = proveBound(request, () => cost);
    for (let step = proving.next(); ; step = proving.next()) {
      const { total } = step.value;
      if (step.done !== true && performance.now() < sliceEnds) continue;
      if (total > told) tell({ type: "bound", total });
      told = Math.max(told, total);
      if (step.done === true) break;
      await breathe();
      sliceEnds = performance.now() + SLICE_MS;
    }
    tell({ type: "ended" });
  } catch (error) {
    tell({ type: "failed", message: error instanceof Error ? (error.stack ?? error.message) : String(error) });
  }
}
