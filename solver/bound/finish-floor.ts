/** When the last firing of any plan ends at the soonest when so many coats may be left over: chains, benches, booth, ovens. */
import type { DayModel } from "../day/day-model.ts";
import type { Chains } from "./chains.ts";
import type { TaskSet } from "./hand-finish.ts";
import { finishOf, taskSets } from "./hand-finish.ts";
import { ovenSets } from "./oven-sets.ts";
import { StaffedClock } from "./staffed-clock.ts";

/** `done`: some pan that is not left over ends no sooner. Infinity past the horizon. */
export function finishFloor(day: DayModel, chains: Chains): (left: number, done: number) => number {
  const { request } = day;
  const clock = new StaffedClock(request.staffed, request.planFromMinute);
  const breaks = request.staffed.length - 1;
  const { sprayers, changeoverMinutes } = request.booth;
  const always = new StaffedClock([{ from: request.planFromMinute, to: Infinity }], request.planFromMinute);
  const ovenClock = request.ovens.every((oven) => oven.attended) ? clock : always;
  const none = { minutes: 0, free: 0 };
  const changeovers = { minutes: changeoverMinutes, free: sprayers * (1 + breaks) };
  const places: readonly (readonly [TaskSet[], number, StaffedClock])[] = [
    [request.benches > 0 ? taskSets(chains.bench, chains.bakes, none) : [], request.benches, clock],
    [sprayers > 0 ? taskSets(chains.booth, chains.bakes, changeovers) : [], sprayers, clock],
    [ovenSets(day, chains), request.ovens.length, ovenClock],
  ];
  const heldDone = request.held.reduce((last, load) => Math.max(last, load.done), request.planFromMinute);
  return (left, done) => {
    let finish = done;
    for (const [sets, machines, on] of places) finish = Math.max(finish, finishOf(sets, machines, on, left));
    return finish > day.horizonEnd + TINY_MINUTES ? Infinity : Math.max(heldDone, finish);
  };
}

const TINY_MINUTES = 1e-6;
