/** Ctrl-C while searching: once for the best plan so far, twice to quit. */
import { constants } from "node:os";

type StopSignal = "SIGINT" | "SIGTERM";

export interface StopSignals {
  readonly stopped: () => boolean;
  /** Gives the signals back to the system. */
  readonly release: () => void;
}

/** Where signals come from and what quitting is; `process` in the product. */
export interface SignalSource {
  readonly on: (signal: StopSignal, heard: (signal: StopSignal) => void) => unknown;
  readonly off: (signal: StopSignal, heard: (signal: StopSignal) => void) => unknown;
  readonly exit: (code: number) => unknown;
}

/** npm hands a terminal's Ctrl-C on to us, who had it already: so soon after, it is still the first. */
const SAME_PRESS_MS = 300;

/** `told` is called once, at the first signal. `now` answers milliseconds. */
export function stopSignals(
  told: () => void,
  source: SignalSource = process,
  now: () => number = () => performance.now(),
): StopSignals {
  let first: number | undefined;
  const heard = (signal: StopSignal): void => {
    if (first === undefined) {
      first = now();
      told();
    } else if (now() - first >= SAME_PRESS_MS) source.exit(128 + constants.signals[signal]);
  };
  source.on("SIGINT", heard);
  source.on("SIGTERM", heard);
  return {
    stopped: () => first !== undefined,
    release: () => {
      source.off("SIGINT", heard);
      source.off("SIGTERM", heard);
    },
  };
}
