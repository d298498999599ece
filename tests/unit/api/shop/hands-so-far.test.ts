import { describe, expect, it } from "vitest";
import type { DayFile } from "../../../../api/contract/day.ts";
import { handsSoFar } from "../../../../api/shop/hands-so-far.ts";
import { shopTime } from "../../../../api/shop/instants.ts";
import type { InForcePlan, Moment } from "../../../../api/shop/progress.ts";

const STAFFED = [
  { from: "2026-05-12T08:00:00+00:00", to: "2026-05-12T12:00:00+00:00" },
  { from: "2026-05-12T12:30:00+00:00", to: "2026-05-12T17:00:00+00:00" },
];
const PAN = { id: "P", nextCoat: 1, coating: "two-coat", readyAt: "2026-05-12T08:00:00+00:00", prepMinutes: 20 };
type Pan = Parameters<typeof handsSoFar>[0];

const clock = (text: string): string => `2026-05-12T${text}+00:00`;

function momentAt(now: string): Moment {
  return {
    now: Date.parse(clock(now)),
    time: shopTime({ timeZone: "UTC" }),
    inspectMinutes: () => 0,
    sprayMinutes: () => 5,
    flashMinutes: () => 10,
    coats: () => 2,
    finishMinutes: 0,
  };
}

/** A plan that bakes the pan from a door at 10:00 on; with hands counted, it preps from 8:00 and sprays from 9:40. */
function planWith({ benches, sprayers }: { readonly benches: number; readonly sprayers: number }): InForcePlan {
  const load = { id: "L1", doorOpensAt: clock("10:00:00"), pans: [{ id: "P", item: 1, coat: 1 }] };
  const day = {
    planFrom: clock("08:00:00"),
    timeZone: "UTC",
    staffed: STAFFED,
    prep: { benches },
    booth: { sprayers },
  };
  const plan = {
    loads: [load],
    prep: benches === 0 ? [] : [{ id: "P", item: 1, bench: 1, from: clock("08:00:00"), to: clock("08:20:00") }],
    booth:
      sprayers === 0 ? [] : [{ id: "P", item: 1, coat: 1, sprayer: 1, from: clock("09:40:00"), to: clock("09:45:00") }],
  };
  return { day: day as unknown as DayFile, plan, loads: [{ load, state: "planned" }] } as unknown as InForcePlan;
}

const after = (now: string, hands: { readonly benches: number; readonly sprayers: number }, pan: object = {}) =>
  handsSoFar({ ...PAN, ...pan } as Pan, planWith(hands), momentAt(now), -Infinity);

describe("hands so far", () => {
  it("leave bench work that goes on until the minute that the plan says, asked at any second", () => {
    expect(after("08:07:00", { benches: 1, sprayers: 1 })).toMatchObject({ prepMinutes: 13 });
    expect(after("08:06:01", { benches: 1, sprayers: 1 })).toMatchObject({ prepMinutes: 13 });
    expect(after("08:20:00", { benches: 1, sprayers: 1 })).toMatchObject({
      prepMinutes: 0,
      readyAt: clock("08:20:00"),
    });
  });

  it("have sprayed once spraying has begun", () => {
    expect(after("09:40:00", { benches: 1, sprayers: 1 }).sprayed).toBeUndefined();
    expect(after("09:40:01", { benches: 1, sprayers: 1 })).toMatchObject({ sprayed: true, readyAt: clock("09:55:00") });
  });

  it("work at benches that nobody counts as soon as can be, within one staffed interval", () => {
    expect(after("08:07:00", { benches: 0, sprayers: 1 })).toMatchObject({ prepMinutes: 13 });
    const late = { readyAt: clock("11:50:00") };
    expect(after("12:31:00", { benches: 0, sprayers: 0 }, late)).toMatchObject({ prepMinutes: 19 });
    expect(after("12:30:00", { benches: 0, sprayers: 0 }, late)).toMatchObject({ prepMinutes: 20, ...late });
  });

  it("spray where nobody counts the sprayers so late that the flash ends as the door opens", () => {
    expect(after("09:45:00", { benches: 1, sprayers: 0 })).not.toMatchObject({ sprayed: true });
    expect(after("09:45:01", { benches: 1, sprayers: 0 })).toMatchObject({
      sprayed: true,
      prepMinutes: 0,
      readyAt: clock("10:00:00"),
    });
  });

  it("have done nothing that no load of the plan waits for", () => {
    const elsewhere = { id: "Q" };
    expect(after("11:00:00", { benches: 0, sprayers: 0 }, elsewhere)).toEqual({ ...PAN, ...elsewhere });
  });
});
