/** Firings that nobody sees the end of, with hours of work as a day file may write them. */
import { expect, it } from "vitest";
import { isLeftAlone } from "../../../web/parts/left-alone.ts";

const local = [
  { from: "2026-06-09T07:30", to: "2026-06-09T12:30" },
  { from: "2026-06-09T13:00", to: "2026-06-09T18:00" },
];
const elsewhere = [{ from: "2026-06-09T06:30:00Z", to: "2026-06-09T17:00:00Z" }];

it.each([
  { staffed: local, from: "07:30:00", to: "12:30:00", alone: false },
  { staffed: local, from: "13:05:00", to: "17:59:30", alone: false },
  { staffed: local, from: "12:20:00", to: "13:04:00", alone: true },
  { staffed: local, from: "17:30:00", to: "18:00:01", alone: true },
  { staffed: local, from: "07:29:00", to: "08:00:00", alone: true },
  { staffed: elsewhere, from: "07:30:00", to: "18:00:00", alone: false },
  { staffed: elsewhere, from: "07:29:00", to: "18:00:00", alone: true },
])("from $from to $to, one hour ahead of UTC: $alone", ({ staffed, from, to, alone }) => {
  const load = { doorOpensAt: `2026-06-09T${from}+01:00`, doneAt: `2026-06-09T${to}+01:00` };
  expect(isLeftAlone({ staffed }, { ...load, state: "planned" })).toBe(alone);
});

it.each([
  { state: "planned", alone: true },
  { state: "pinned", alone: true },
  { state: "firing", alone: false },
  { state: "fired", alone: false },
  { state: "interrupted", alone: false },
  { state: "dropped", alone: false },
] as const)("over a break, $state: $alone", ({ state, alone }) => {
  const load = { state, doorOpensAt: "2026-06-09T12:20:00+01:00", doneAt: "2026-06-09T13:04:00+01:00" };
  expect(isLeftAlone({ staffed: local }, load)).toBe(alone);
});
