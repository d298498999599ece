import { describe, expect, it } from "vitest";
import { pathText, toProblem } from "../../../../api/contract/problem.ts";
import {
  cautions,
  lateMinutesShown,
  reasonSentence,
  reasonSentences,
  unpricedText,
} from "../../../../api/contract/words.ts";

describe("words for reasons", () => {
  it("have a whole sentence for every code, even without its numbers", () => {
    for (const code of Object.keys(reasonSentences)) {
      const said = reasonSentence({ code, numbers: {} });
      expect(said.length, code).toBeGreaterThan(15);
      expect(said, code).not.toMatch(/undefined|NaN|\[object/);
    }
  });

  it("say the numbers of two windows that do not meet", () => {
    const numbers = { slow: "K-203-A", fast: "K-201-A", setPointC: 400 };
    const minutes = { lagMinutes: 8, needsUntilMinute: 61, staysUntilMinute: 52.4 };
    const said = reasonSentence({ code: "windows-do-not-meet", numbers: { ...numbers, ...minutes } });
    expect(said).toContain(
      "at 400 °C K-203-A is at temperature 8 min after K-201-A; it needs the burner until minute 61",
    );
    expect(said).toContain("K-201-A may stay only until minute 52.4");
  });

  it("never say a negative number of minutes", () => {
    const numbers = { slow: "A", fast: "B", setPointC: 400, lagMinutes: -3, needsUntilMinute: 70, staysUntilMinute: 0 };
    expect(reasonSentence({ code: "windows-do-not-meet", numbers })).not.toMatch(/-\d/);
  });

  it("say two ranges of temperature that do not meet by their temperatures", () => {
    const numbers = { hot: "K-1", cool: "K-2", needsC: 385, allowsC: 295 };
    const said = reasonSentence({ code: "ranges-do-not-meet", numbers });
    expect(said).toBe("K-1 needs its metal at 385 °C at least and K-2 may not get hotter than 295 °C");
  });

  it("show a code that has no words as it is", () => {
    expect(reasonSentence({ code: "constructor", numbers: {} })).toBe("constructor");
  });
});

describe("the minutes a ticket is late", () => {
  it.each([
    // 1.4 min: shown as promised 11:30, ready 11:32.
    ["2026-06-09T11:30:00+01:00", "2026-06-09T11:31:24+01:00", 2],
    ["2026-06-09T11:30:00+01:00", "2026-06-09T11:32:00+01:00", 2],
    // Shown as promised 11:30, ready 11:32, though 40 s apart.
    ["2026-06-09T11:30:30+01:00", "2026-06-09T11:31:10+01:00", 2],
    // 23:50 to 00:05 of the next day.
    ["2026-06-09T23:50:00+01:00", "2026-06-10T00:04:01+01:00", 15],
    ["2026-06-09T11:30:00+01:00", "2026-06-09T11:29:59+01:00", 0],
    ["2026-06-09T11:30:00+01:00", "2026-06-09T09:00:00+01:00", 0],
    [null, "2026-06-09T11:31:24+01:00", 0],
    ["2026-06-09T11:30:00+01:00", null, 0],
  ])("promised %s, ready %s: %i, as the clock times shown are apart", (promisedAt, readyAt, minutes) => {
    expect(lateMinutesShown({ promisedAt, readyAt })).toBe(minutes);
  });
});

describe("the cautions of a plan", () => {
  const warm = { highestSetPointC: 280, solvent: true, leftAlone: false };

  it("always defer to the oven's plate, local codes and licensed practice", () => {
    const said = cautions({ highestSetPointC: null, solvent: false, leftAlone: false }).join(" ");
    expect(said).toMatch(/oven's plate/);
    expect(said).toMatch(/local codes/);
    expect(said).toMatch(/licensed/);
    expect(said).toMatch(/Purge/);
    expect(said).toMatch(/burns/);
    expect(said).not.toMatch(/Solvent|Left alone/);
  });

  // Guide to the safe handling of fluoropolymer resins: hazardous fumes possible above about 330 °C.
  it("warn of fumes from 330 °C on, not below", () => {
    expect(cautions({ ...warm, highestSetPointC: 325 }).join(" ")).not.toMatch(/hazardous fumes/);
    expect(cautions({ ...warm, highestSetPointC: 330 }).join(" ")).toMatch(/hazardous fumes/);
  });

  it("speak of solvent where something is sprayed", () => {
    expect(cautions(warm).join(" ")).toMatch(/Solvent/);
  });

  it("speak of ovens that nobody watches where a firing outlasts the crew", () => {
    expect(cautions(warm).join(" ")).not.toMatch(/nobody is there/);
    expect(cautions({ ...warm, leftAlone: true }).join(" ")).toMatch(/nobody is there.*plate.*local codes/);
  });
});

describe("a problem", () => {
  it("writes its path as people read it", () => {
    expect(pathText(["pans", 3, "massKg"])).toBe("pans[3].massKg");
    expect(pathText(["materials", "cast iron", "specificHeatJPerKgK"])).toBe(
      'materials["cast iron"].specificHeatJPerKgK',
    );
    expect(pathText([])).toBe("");
  });

  it("shows a long or nested value in short", () => {
    expect(toProblem(["title"], "too-long", "x".repeat(500), { limit: 200 }).seen).toMatch(/^"x{60}…"$/);
    expect(toProblem(["pans"], "wrong-type", { a: 1 }, { expected: "a list" }).seen).toBe("an object");
  });

  it("says hint or what is allowed, and never neither", () => {
    const plain = toProblem(["pans", 0, "massKg"], "too-small", -1, { rule: "more than", limit: 0 });
    expect(plain).toEqual({
      path: "pans[0].massKg",
      code: "too-small",
      seen: -1,
      allowed: "more than 0",
      message: "-1 is too small. Allowed: more than 0.",
    });
  });
});

describe("what a day gives no price for", () => {
  const pans = [{}];

  it.each([
    [undefined, "gas and lateness"],
    [{ gasPerKWh: 0, latePerPanHour: 6 }, "gas"],
    [{ gasPerKWh: 0.1 }, "lateness"],
  ])("is told: %j lacks %s", (prices, missing) => {
    expect(unpricedText({ prices, pans })).toContain(`no price for ${missing}: `);
  });

  it("is nothing where both have one, lateness by the pan or for rush pans only too", () => {
    expect(unpricedText({ prices: { gasPerKWh: 0.1, latePerPanHour: 6 }, pans })).toBeNull();
    expect(unpricedText({ prices: { gasPerKWh: 0.1, rushLatePerPanHour: 6 }, pans })).toBeNull();
    expect(unpricedText({ prices: { gasPerKWh: 0.1 }, pans: [{}, { latePerHour: 4 }] })).toBeNull();
  });
});
