/** Shelves told by one run of a load against simulating the load on each of them. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { Member } from "../../../../solver/heat/members.ts";
import { isFireable } from "../../../../solver/heat/options.ts";
import { shelvesKept } from "../../../../solver/heat/shelves-kept.ts";
import { anyCycle, anyMember, demoCycle } from "../../../help/random-ovens.ts";

const offsetsC = [-6, 0, 6];

const isOn = (way: readonly number[], offsets: readonly number[]): boolean =>
  offsets.every((offset, member) => (way[member]! & (1 << offset)) !== 0);

describe("the shelves on which windows are kept", () => {
  it("are those on which the load bakes, for nearly all loads of two kinds that bake on some", () => {
    const said = { right: 0, toBake: 0, notTo: 0 };
    const anyLoad = fc.tuple(anyCycle, anyMember, anyMember, fc.constantFrom(20, 90, 170));
    for (const [cycle, one, other, chamberC] of fc.sample(anyLoad, { numRuns: 1500, seed: 11 })) {
      const members = [one, other].map((member) => ({ ...member, offsetC: 0 }));
      const ways = [...shelvesKept(cycle, 20, members, offsetsC, Math.min(chamberC, cycle.doorLimitC))];
      for (let first = 0; first < 3; first++)
        for (let second = 0; second < 3; second++) {
          const told = ways.some((way) => isOn(way, [first, second]));
          const placed: Member[] = [first, second].map((at, member) => ({
            ...members[member]!,
            offsetC: offsetsC[at]!,
          }));
          const bakes = isFireable(cycle, 20, placed, Math.min(chamberC, cycle.doorLimitC));
          if (told && bakes) said.right++;
          else if (told) said.toBake++;
          else if (bakes) said.notTo++;
        }
    }
    expect(said.right).toBeGreaterThan(800);
    expect(said.toBake).toBeLessThan(0.01 * said.right);
    expect(said.notTo).toBeLessThan(0.01 * said.right);
  });

  it("are the warm one for slow metal and the cool one for quick metal that does not stand waiting for it", () => {
    const body = { exchangeM2: 0.2, coatedM2: 0.1, heatJPerK: 800 };
    const quick = { count: 3, body, offsetC: 0, lowC: 250, highC: 300, soakLeastMinutes: 10, soakMostMinutes: 19 };
    const slow = { ...quick, count: 1, body: { ...body, heatJPerK: 3000 } };
    const ways = [...shelvesKept(demoCycle, 20, [quick, slow], offsetsC, 20)];
    expect(ways.length).toBeGreaterThan(0);
    for (const way of ways) expect(way).toEqual([0b001, 0b100]);
    const later = [...shelvesKept(demoCycle, 20, [{ ...quick, soakMostMinutes: 24 }, slow], offsetsC, 20)];
    expect(later).toContainEqual([0b111, 0b100]);
  });

  it("are none for a window that no shelf lets the metal reach", () => {
    const body = { exchangeM2: 0.2, coatedM2: 0.1, heatJPerK: 800 };
    const member = { count: 1, body, offsetC: 0, lowC: 428, highC: 460, soakLeastMinutes: 10, soakMostMinutes: 40 };
    // 430 °C at most in the chamber, 433 with its guard in the metal.
    expect([...shelvesKept(demoCycle, 20, [member], [-6, 0], 20)]).toEqual([]);
    expect([...shelvesKept(demoCycle, 20, [member], offsetsC, 20)].length).toBeGreaterThan(0);
  });
});
