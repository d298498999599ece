import { describe, expect, it } from "vitest";
import { colourful } from "../../../../api/cli/paint.ts";
import { printPlan } from "../../../../api/cli/print-plan.ts";
import { handDay, handPlan } from "./hand-plan.ts";

const lines = printPlan(handDay, handPlan);
const text = lines.join("\n");

/** The lines under a heading, joined, so that line breaks do not matter. */
function section(heading: string): string {
  const start = lines.findIndex((line) => line.startsWith(heading));
  expect(start, heading).toBeGreaterThan(-1);
  const rest = lines.slice(start + 1);
  const end = rest.indexOf("");
  return rest
    .slice(0, end < 0 ? undefined : end)
    .map((line) => line.trim())
    .join(" ");
}

describe("the head of a printed plan", () => {
  it("counts pans, coats and firings, and says who is late and what is left", () => {
    // 3 + 2 pans, 4 coats baked in 1 firing; 22 kWh / 11 kWh per m3 = 2 m3.
    expect(text).toContain("Tuesday 10 March 2026, from 07:30; times of Europe/Lisbon");
    expect(text.replaceAll("\n", " ")).toContain(
      "5 pans, 4 coats baked in 1 firing, the last out at 08:45. 1 ticket late. 1 pan left over. Gas 22 kWh = 2 m3.",
    );
  });

  it("leads with what to do next, in time order, at most six steps", () => {
    const next = lines.slice(lines.indexOf("NEXT") + 1, lines.indexOf("NEXT") + 7).map((line) => line.trim());
    expect(next).toEqual([
      "07:30  bench 1: prepare K-2-A 1 (15 min)",
      "07:30  sprayer 1: spray top coat: K-1-A 1–3 (15 min)",
      "07:52  sprayer 1: spray primer: K-2-A 1 (4 min)",
      "08:06  Gas box oven: open the door and load L1 (top coat ×3, primer ×1), set-point 280 °C",
      "08:40  Gas box oven: burner off for L1",
      "08:41  Gas box oven: open the door and unload L1",
    ]);
    expect(lines.indexOf("NEXT")).toBeLessThan(lines.indexOf("LATE"));
  });

  it("leaves out of what to do next what lies before the plan's start", () => {
    const later = { ...handDay, planFrom: "2026-03-10T08:10" };
    expect(printPlan(later, handPlan).filter((line) => line.includes("(15 min)"))).toEqual([]);
  });
});

describe("a printed firing", () => {
  it("tells its times; the set-point's minute is rounded up, for by then it is reached", () => {
    expect(section("FIRINGS")).toContain(
      "door open 08:06 · closed 08:10 · burner on 08:14 · at 280 °C by 08:28 · burner off 08:40 · unload 08:41 · empty 08:45",
    );
  });

  it("tells from when to when the burner may go off: one early minute, five of slack", () => {
    expect(section("FIRINGS")).toContain("burner off from 08:39 to 08:45 keeps every window");
  });

  it("tells when the slowest metal is in its window, the span of soaks and the hottest metal", () => {
    expect(section("FIRINGS")).toContain("in its window by 08:30; soak 12–14 min, metal at most 282–288 °C.");
  });

  it("sends the fan on before the door where the chamber must come down", () => {
    expect(section("FIRINGS")).toContain("Fan on from 08:00, burner off");
  });

  it("lists the warm shelf before the cool one, each pan with its place and turn", () => {
    const firing = section("FIRINGS");
    expect(firing).toContain("shelf high (+3 °C): K-1-A 3 top coat at 16/16; K-2-A 1 primer at 45/24 turned");
    expect(firing).toContain("shelf low (−4 °C): K-1-A 1 at 16/16; 2 at 46.5/16");
    expect(firing.indexOf("shelf high")).toBeLessThan(firing.indexOf("shelf low"));
  });

  it("has no burner in an oven with a fixed cycle, and no shelf where only the area counts", () => {
    const [oven] = handDay.ovens;
    const [load] = handPlan.loads;
    if (!oven || !load) throw new Error("the hand-written day has an oven and a load");
    const cycle = { kind: "fixed", loadMinutes: 4, unloadMinutes: 4, gasKW: 20 } as const;
    const day = { ...handDay, ovens: [{ ...oven, cycle, space: { kind: "area" as const, dm2: 100 } }] };
    const pans = load.pans.map((pan) => ({
      ...pan,
      shelf: null,
      xCm: null,
      yCm: null,
      inWindowAt: null,
      soakMinutes: null,
      peakC: null,
    }));
    const blind = {
      setPointC: null,
      burnerOnAt: null,
      setPointAt: null,
      burnerOffAt: null,
      slackMinutes: null,
      ventMinutes: 0,
    };
    const printed = printPlan(day, { ...handPlan, loads: [{ ...load, ...blind, pans }] })
      .map((line) => line.trim())
      .join(" ");
    expect(printed).toContain(
      "door open 08:06 · closed 08:10 · unload 08:41 · empty 08:45 in it: K-1-A 1–3 top coat; K-2-A 1 primer",
    );
    expect(printed).not.toMatch(/burner off|set-point|null/);
  });

  it("shows an empty firing as what it is", () => {
    const [load] = handPlan.loads;
    if (!load) throw new Error("the hand-written plan has a load");
    const burn = {
      ...load,
      kind: "clean burn" as const,
      setPointC: 420,
      pans: [],
      massKg: 0,
      solventMl: 0,
      ventMinutes: 0,
    };
    const printed = printPlan(handDay, { ...handPlan, loads: [burn] }).join("\n");
    expect(printed).toContain("set-point 420 °C: clean burn, oven empty, 22 kWh");
    expect(printed).not.toContain("door open 08:06");
    const cleanBurn = { after: ["silicone"], before: ["fluoropolymer"], setPointC: 420, holdMinutes: 20 };
    const day = { ...handDay, mixing: { ...handDay.mixing, cleanBurn } };
    const first = { ...burn, id: "L0" };
    expect(printPlan(day, { ...handPlan, loads: [first, load] }).join("\n")).toContain(
      `clean burn, oven empty, owed before ${load.id},`,
    );
  });
});

describe("bench, booth and tickets of a printed plan", () => {
  it("joins what one hand does in one go and names the load it is for", () => {
    expect(section("BENCH")).toBe("07:30–07:45  bench 1  prepare K-2-A 1");
    expect(section("BOOTH")).toBe(
      "07:30–07:45  sprayer 1  spray top coat: K-1-A 1–3 — for L1, door opens 08:06 " +
        "(change the gun: top coat T out, primer P in, 6 min) " +
        "07:52–07:56  sprayer 1  spray primer: K-2-A 1 — for L1, door opens 08:06",
    );
  });

  it("tells the late ticket with its reason, and the pan left over with its coat", () => {
    // Promised 08:00, ready 02:00 the next day: 18 h.
    expect(section("LATE")).toBe("K-2: ready Wed 02:00, promised 08:00: 18 h late. Why: one pan is left over.");
    expect(section("LEFT OVER")).toBe("K-2-A 2, from its primer on: no firing fits before 12:00.");
  });

  it("lists every ticket by the time it is ready, a begun minute as over", () => {
    // K-1 is ready at 09:21:30.
    expect(section("TICKETS READY")).toBe("09:22      K-1  promised 16:00 Wed 02:00  K-2  promised 08:00, 18 h late");
  });

  it("says as many minutes late as the two clock times are apart", () => {
    // Ready 09:21:24, 1.4 min after 09:20.
    const tickets = handPlan.tickets.map((one) =>
      one.ticket === "K-1"
        ? {
            ...one,
            readyAt: "2026-03-10T09:21:24+00:00",
            promisedAt: "2026-03-10T09:20:00+00:00",
            lateMinutes: 1.4,
            reason: "the oven is full",
          }
        : one,
    );
    const printed = printPlan(handDay, { ...handPlan, tickets }).join("\n");
    expect(printed).toContain("K-1: ready 09:22, promised 09:20: 2 min late. Why: the oven is full.");
    expect(printed).toContain("promised 09:20, 2 min late\n");
  });
});

describe("gas, cost and goodness of a printed plan", () => {
  it("gives kWh, units, money and carbon, and the gas per coat: 22 kWh / 4 coats = 5.5", () => {
    expect(section("GAS")).toContain("1 firing, 22 kWh = 2 m3, 2.20 EUR, 4 kg CO2e; 5.5 kWh per coat baked.");
  });

  it("compares with both habits: 33 of 55 kWh are 60 % and 3 m3; 2 of 20 kWh more are 10 %", () => {
    const gas = section("GAS");
    expect(gas).toContain("One pan per firing: 4 firings, 55 kWh; saved 33 kWh (60 %) = 3 m3, 3.30 EUR, 6 kg CO2e.");
    expect(gas).toContain(
      "ticket order: 2 firings, 20 kWh; this plan uses more by 2 kWh (10 %) = 0.2 m3, 0.20 EUR, 0.4 kg CO2e.",
    );
  });

  it("splits the cost and says how much could still be saved", () => {
    expect(section("COST")).toContain("costs 10.00 EUR: gas 2.20, crew 6.80, late 0.60, left over 0.40.");
    expect(section("COST")).toContain(
      "at least 9.50 EUR is unavoidable, so at most 5 % could still be saved. " +
        "Searched 1.9 s, with 0 linear programs solved.",
    );
  });

  it("says that gas and lateness are not saved where the day gives them no price", () => {
    expect(section("COST")).not.toContain("no price");
    const { gasPerKWh, ...rest } = handDay.prices;
    expect(gasPerKWh).toBeGreaterThan(0);
    const printed = printPlan({ ...handDay, prices: { ...rest, gasPerKWh: 0 } }, handPlan)
      .map((line) => line.trim())
      .join(" ");
    expect(printed).toContain("left over 0.40. The day gives no price for gas: this plan does not try to avoid any.");
  });

  it("says which parts of the bound are known", () => {
    const search = { ...handPlan.search, unavoidable: { gas: 2, crew: 6.5, late: 0 } };
    const printed = printPlan(handDay, { ...handPlan, search })
      .map((line) => line.trim())
      .join(" ");
    expect(printed).toContain("at least 9.50 EUR is unavoidable (of it gas 2.00, crew 6.50), so at most 5 %");
  });

  it("does not pretend to know how good a plan is without a bound", () => {
    const search = { ...handPlan.search, bestPossibleCost: 0, gapPercent: 100 };
    const printed = printPlan(handDay, { ...handPlan, search })
      .map((line) => line.trim())
      .join(" ");
    expect(printed).toContain("how much cheaper a plan could be is not known");
    expect(printed).not.toContain("100 %");
  });

  it("passes warnings and cautions on", () => {
    expect(section("MIND")).toContain("The bottle gives too little for the burner.");
    expect(section("CAUTIONS")).toContain("burns and looks cold");
  });
});

describe("the look of a printed plan", () => {
  it("keeps to 100 columns", () => {
    expect(Math.max(...lines.map((line) => Array.from(line).length))).toBeLessThanOrEqual(100);
  });

  it("has no colour unless asked, and the same words with it", () => {
    // eslint-disable-next-line no-control-regex
    const codes = /\u001b\[\d+m/g;
    expect(text).not.toMatch(codes);
    const coloured = printPlan(handDay, handPlan, colourful).join("\n");
    expect(coloured).toMatch(codes);
    expect(coloured.replaceAll(codes, "")).toBe(text);
  });

  it("says nothing about who is late where nobody is", () => {
    const calm = { ...handPlan, leftOver: [], warnings: [], tickets: handPlan.tickets.slice(0, 1) };
    const printed = printPlan(handDay, calm);
    expect(printed.join(" ")).toContain("Nobody is late.");
    expect(printed).not.toContain("LATE");
    expect(printed).not.toContain("LEFT OVER");
    expect(printed).not.toContain("MIND");
  });
});
