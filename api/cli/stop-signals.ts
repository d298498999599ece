/** Ctrl-C while searching: once for the best plan so far, twice to quit. */
import { constants } from "node:os";

export interface StopSignals {
  readonly stopped: () => boolean;
  /** Gives the signals back to the system. */
  readonly release: () => void;
}

/** npm hands a terminal's Ctrl-C on to us, who had it already: so soon after, it is still the first. */
const SAME_PRESS_MS = 300;

/** `told` is called once, at the first signal. */
export function stopSignals(told: () => void): StopSignals {
  let first: number | undefined;
  const heard = (signal: "SIGINT" | "SIGTERM"): void => {
    const now = performance.now();
    if (first !== undefined && now - first >= SAME_PRESS_MS) process.exit(128 + constants.signals[signal]);
    if (first === undefined) told();
    first ??= now;
  };
  process.on("SIGINT", heard);
  process.on("SIGTERM", heard);
  return {
    stopped: () => first !== undefined,
    release: () => {
      process.off("SIGINT", heard);
      process.off("SIGTERM", heard);
    },
  };
}
