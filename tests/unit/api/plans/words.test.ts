import { describe, expect, it } from "vitest";
import { clockText, panWords, ticketWords } from "../../../../api/plans/difference-words.ts";
import { highestNumber } from "../../../../api/plans/number-loads.ts";
import { shopTime } from "../../../../api/shop/instants.ts";

const time = shopTime({ timeZone: "Europe/Madrid" });
const was = { load: "L3", oven: "big", coat: 2, setPointC: 395, doorOpensAt: "2026-09-15T09:12:00+02:00" };
const becomes = { ...was, load: "L9", doorOpensAt: "2026-09-15T10:02:00+02:00" };

describe("what changes, in words", () => {
  it("says when a pan goes in now, when it did before, and how much later that is", () => {
    const words = panWords(
      { pan: "T-310-A.1", ticket: "T-310", change: "later", minutes: 50, moved: true, was, becomes },
      "",
    );
    expect(words).toBe("T-310-A.1: coat 2 goes in at 10:02 with L9 at 395 °C instead of 09:12, 50 min later.");
  });

  it("says why a pan is left over", () => {
    const words = panWords(
      { pan: "A", ticket: "A", change: "left over", minutes: null, moved: true, was, becomes: null },
      "no firing fits before 17:30",
    );
    expect(words).toBe("A is left over; it was to go in at 09:12. No firing fits before 17:30.");
  });

  it("says how late a ticket is, with the date where it is another day's", () => {
    const ticket = {
      ticket: "T-1",
      waitsFor: [],
      promisedAt: "2026-09-15T16:00:00+02:00",
      wasReadyAt: "2026-09-15T15:50:00+02:00",
      readyAt: "2026-09-15T16:25:00+02:00",
      minutes: 35,
      wasLateMinutes: 0,
      lateMinutes: 25,
    };
    expect(ticketWords(ticket, time)).toBe(
      "Ticket T-1 is ready at 16:25, 35 min later than before: 25 min after its promise of 16:00.",
    );
    // 25.4 min late: ready 16:25:24, shown as the minute that is over then.
    const seconds = { ...ticket, readyAt: "2026-09-15T16:25:24+02:00", minutes: 36, lateMinutes: 25.4 };
    expect(ticketWords(seconds, time)).toBe(
      "Ticket T-1 is ready at 16:26, 36 min later than before: 26 min after its promise of 16:00.",
    );
    // Auckland puts the clock on at 02:00 on 27 September 2026 (IANA time zone database).
    const night = { ...ticket, promisedAt: null, readyAt: "2026-09-27T01:59:30+12:00", minutes: 0 };
    expect(ticketWords(night, shopTime({ timeZone: "Pacific/Auckland" }))).toBe(
      "Ticket T-1 is ready at 03:00, as before.",
    );
    expect(clockText("2026-09-16T09:00:00+02:00", "2026-09-15T09:00:00+02:00")).toBe("2026-09-16 09:00");
  });

  it("numbers new loads on from the highest in use", () => {
    expect(highestNumber(["L2", "L11", "held-3", "L9a"])).toBe(11);
    expect(highestNumber([])).toBe(0);
  });
});
