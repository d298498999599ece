import { EventEmitter } from "node:events";
import { expect, it } from "vitest";
import { stopSignals } from "../../../../api/cli/stop-signals.ts";

function shopFloor() {
  const signals = new EventEmitter();
  const exits: number[] = [];
  let clock = 0;
  let told = 0;
  const source = {
    on: (signal: string, heard: (signal: "SIGINT" | "SIGTERM") => void) => signals.on(signal, heard),
    off: (signal: string, heard: (signal: "SIGINT" | "SIGTERM") => void) => signals.off(signal, heard),
    exit: (code: number) => exits.push(code),
  };
  const stop = stopSignals(
    () => (told += 1),
    source,
    () => clock,
  );
  const press = (at: number, signal = "SIGINT"): void => {
    clock = at;
    signals.emit(signal, signal);
  };
  return { stop, press, exits, told: () => told, listeners: () => signals.listenerCount("SIGINT") };
}

it("stops the search at the first Ctrl-C and tells so once", () => {
  const { stop, press, exits, told } = shopFloor();
  expect(stop.stopped()).toBe(false);
  press(1000);
  expect([stop.stopped(), told(), exits]).toEqual([true, 1, []]);
});

it("takes a Ctrl-C that npm hands on at once for the same press", () => {
  const { press, exits, told } = shopFloor();
  press(1000);
  press(1020);
  expect([told(), exits]).toEqual([1, []]);
});

it("quits at the second press with the shell's code for the signal: 128 + 2, 128 + 15 (POSIX)", () => {
  const { press, exits } = shopFloor();
  press(1000);
  press(1500);
  press(2000, "SIGTERM");
  expect(exits).toEqual([130, 143]);
});

it("gives the signals back when the search is over", () => {
  const { stop, listeners } = shopFloor();
  stop.release();
  expect(listeners()).toBe(0);
});
