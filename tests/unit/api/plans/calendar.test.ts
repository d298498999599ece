import ICAL from "ical.js";
import { expect, it } from "vitest";
import { calendarOf } from "../../../../api/plans/calendar.ts";
import { handPlan } from "../cli/hand-plan.ts";

it("a hand-over stands at the minute it is ready in the calendar, as late as that minute is after the promise", () => {
  const promisedAt = "2026-03-10T09:20:00+00:00";
  // Ready 1.4 min after the promise.
  const late = { ...handPlan.tickets[0]!, readyAt: "2026-03-10T09:21:24+00:00", promisedAt, lateMinutes: 1.4 };
  const calendar = new ICAL.Component(ICAL.parse(calendarOf("p-1", { ...handPlan, tickets: [late] })));
  const entries = calendar.getAllSubcomponents("vevent").map((one) => new ICAL.Event(one));
  const handOver = entries.find(({ summary }) => summary.startsWith("Ticket"));
  expect(handOver?.summary).toBe("Ticket K-1 ready, 2 min late");
  expect(handOver?.startDate.toJSDate().toISOString()).toBe("2026-03-10T09:22:00.000Z");
});
