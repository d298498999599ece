/** Code and numbers of a problem in a day file -> plain sentences: what is wrong, what is allowed, which slip explains it. */

export type Numbers = Readonly<Record<string, number | string | undefined>>;

export interface ProblemWords {
  readonly message: string;
  readonly allowed: string;
  readonly hint?: string;
}

type Sentence = (n: Numbers) => readonly [wrong: string, allowed: string, hint?: string | undefined];

const sentences = {
  // the file as a whole
  "not-json": (n) => [
    `This is not JSON: line ${n["line"]}, column ${n["column"]} (${n["near"]}).`,
    "a JSON text",
    text(n["slip"]),
  ],
  "not-utf8": () => ["The file is not UTF-8 text.", "UTF-8", "Save it as UTF-8 and read it again."],
  "too-large": (n) => [`The file holds more than ${n["most"]}.`, `at most ${n["most"]}`],
  "too-deep": (n) => [`Lists or objects are nested more than ${n["most"]} deep.`, `at most ${n["most"]} levels`],
  "duplicate-field": (n) => [
    `The field ${n["field"]} stands twice in the same object; only one can count.`,
    "each field once",
  ],
  "not-an-object": (n) => [`A day file is one JSON object; this is ${n["seen"]}.`, "an object"],
  "wrong-version": (n) => [`formatVersion is ${n["seen"]}; this program reads version 1.`, "1"],
  // single fields
  missing: (n) => [`${n["field"]} is missing.`, text(n["expected"])],
  "unknown-field": (n) => [`There is no field ${n["field"]} here.`, `one of ${n["known"]}`, meant(n["nearest"])],
  "wrong-type": (n) => [`${n["seen"]} does not go here.`, text(n["expected"]), text(n["slip"])],
  "number-as-text": (n) => [
    `${n["seen"]} is text, not a number.`,
    text(n["expected"]),
    `Write ${n["value"]} without quotes.`,
  ],
  "decimal-comma": (n) => [
    `${n["seen"]} has a decimal comma.`,
    text(n["expected"]),
    `Write ${n["value"]} with a point and without quotes.`,
  ],
  "not-finite": (n) => [`${n["seen"]} is no number to plan with.`, text(n["expected"])],
  "not-whole": (n) => [
    `${n["seen"]} is not a whole number.`,
    `${n["expected"]}; schedules run in whole minutes and pieces are whole`,
  ],
  "too-small": (n) => [`${n["seen"]} is too small.`, `${n["rule"]} ${n["limit"]}`],
  "too-big": (n) => [`${n["seen"]} is too big.`, `${n["rule"]} ${n["limit"]}`],
  "too-long": (n) => [`${n["seen"]} is longer than ${n["limit"]}.`, `at most ${n["limit"]}`],
  empty: (n) => [`${n["seen"]} is empty.`, text(n["expected"])],
  "not-a-choice": (n) => [`${n["seen"]} is none of the choices.`, `one of ${n["choices"]}`, meant(n["nearest"])],
  "bad-instant": (n) => [
    `${n["seen"]} is no date and time.`,
    "ISO 8601, as 2026-03-10T07:30 or 2026-03-10T07:30+01:00",
    text(n["slip"]),
  ],
  // ids
  "duplicate-id": (n) => [
    `${n["what"]} ${n["seen"]} stands twice, first at ${n["first"]}.`,
    "each id once",
    text(n["wayOut"]),
  ],
  "unknown-id": (n) => [`There is no ${n["what"]} ${n["seen"]}.`, `one of ${n["known"]}`, meant(n["nearest"])],
  "unknown-group": (n) => [
    `No coat of this day has the mix group ${n["seen"]}, so what is said about it changes nothing.`,
    `one of ${n["known"]}`,
    meant(n["nearest"]),
  ],
  "too-many-pans": (n) => [
    `${n["pans"]} pans are more than one plan can take.`,
    `at most ${n["most"]}`,
    "Split the list by day.",
  ],
  // the clock
  "unknown-zone": (n) => [`There is no time zone ${n["seen"]}.`, "an IANA name, as Europe/Lisbon", meant(n["nearest"])],
  "skipped-time": (n) => [
    `The clock change skips ${n["seen"]} in ${n["zone"]}.`,
    "a time the clock shows, or one with its offset",
    `It would be ${n["earlier"]} or ${n["later"]}: write the one that is meant.`,
  ],
  "repeated-time": (n) => [
    `The clock change repeats ${n["seen"]} in ${n["zone"]}.`,
    "a time with its offset",
    `It is ${n["earlier"]} or ${n["later"]}: write the one that is meant.`,
  ],
  "not-whole-minute": (n) => [`${n["seen"]} is not on a whole minute.`, "whole minutes"],
  "interval-reversed": (n) => [
    `The interval ends at ${n["seen"]}, not after its start ${n["from"]}.`,
    `after ${n["from"]}`,
  ],
  "intervals-overlap": (n) => [
    `Staffed time from ${n["seen"]} overlaps ${n["other"]}, which lasts to ${n["to"]}.`,
    "intervals that do not overlap",
  ],
  "plan-from-too-late": (n) => [
    `Planning starts at ${n["seen"]}, when all staffed time is over (${n["end"]}).`,
    `before ${n["end"]}`,
    text(n["slip"]),
  ],
  "next-open-too-early": (n) => [
    `Work cannot go on at ${n["seen"]}, before the last staffed time ends at ${n["end"]}.`,
    `${n["end"]} or later`,
  ],
  "day-month-swapped": (n) => [
    `${n["seen"]} is ${n["days"]} days from the plan's start.`,
    "a date near the plan's start",
    `Day and month swapped? ${n["swapped"]} would be near.`,
  ],
  // promises and states of a pan
  "promise-before-ready": (n) => [
    `Promised at ${n["seen"]}, before the pan is ready for work at ${n["readyAt"]}.`,
    `after ${n["readyAt"]}`,
    text(n["slip"]),
  ],
  "promise-in-past": (n) => [
    `The promise ${n["seen"]} was over before planning starts at ${n["planFrom"]}: this ticket is late already.`,
    `after ${n["planFrom"]}`,
  ],
  "promise-out-of-reach": (n) => [
    `Sprays, soaks and waits alone take ${n["minutes"]} min; the promise ${n["seen"]} cannot be kept. Not before ${n["earliest"]}.`,
    `${n["earliest"]} or later`,
  ],
  "promises-differ": (n) => [
    `Ticket ${n["ticket"]} is handed over whole, but ${n["other"]} was promised for ${n["otherPromise"]} and this pan for ${n["seen"]}.`,
    "one promise per ticket",
    "Give both the same promise, or split the ticket.",
  ],
  "rush-without-promise": () => ["A rush pan needs a promise.", "an ISO 8601 date and time"],
  "sprayed-with-prep": (n) => [`A sprayed pan has no bench work left, but ${n["seen"]} min of prep are given.`, "0"],
  "next-coat-beyond": (n) => [
    `Coat ${n["seen"]} is due, but ${n["coating"]} has only ${n["coats"]}.`,
    `1 to ${n["coats"]}`,
  ],
  "waited-too-long": (n) => [
    `The ${n["coat"]} may wait ${n["waitMinutes"]} min for the oven and was ready at ${n["seen"]}: it is too late to bake it as it is.`,
    `after ${n["earliest"]}`,
    "Spray it again, or ask the coating's maker.",
  ],
  // the pan and the ovens
  "area-shape-needs-area-oven": () => [
    "A pan known only by its area cannot be laid on a shelf, and no oven it may go into counts area.",
    "a disc or a rectangle",
  ],
  "pan-too-large": (n) => [
    `${n["size"]} fits no shelf: the largest takes ${n["room"]} with its gaps kept.`,
    `within ${n["room"]}`,
    text(n["slip"]) || "Handle off?",
  ],
  "pan-too-tall": (n) => [
    `${n["seen"]} cm is taller than every shelf's clear height.`,
    `at most ${n["room"]} cm`,
    text(n["slip"]) || "Take a shelf out, and enter the clear height that gives.",
  ],
  "pan-too-heavy": (n) => [
    `${n["seen"]} kg is more than every shelf or oven bears.`,
    `at most ${n["room"]} kg`,
    text(n["slip"]),
  ],
  "pan-too-much-solvent": (n) => [
    `One pan brings ${n["ml"]} mL of solvent with its ${n["coat"]}, more than any oven's plate allows.`,
    `at most ${n["room"]} mL`,
    "Never raise the plate's figure: check the coat's solvent and the pan's size.",
  ],
  "pan-fits-nowhere": (n) => [
    `No shelf suits this pan's ${n["coat"]} in size, height, weight, solvent and heat at once, so it can never be baked.`,
    "a pan that one shelf takes in every way",
  ],
  "coat-hotter-than-piece": (n) => [
    `The piece stands ${n["seen"]} °C; ${n["coat"]} needs ${n["low"]} °C, and with ${n["guard"]} °C of guard on both sides no temperature suits both.`,
    `above ${n["needed"]} °C, or another coat`,
    text(n["slip"]),
  ],
  "mass-unlikely": (n) => [
    `${n["seen"]} kg and ${n["size"]} do not go together: the metal would be ${n["thickMm"]} mm thick.`,
    `about ${n["lightKg"]} to ${n["heavyKg"]} kg`,
    text(n["slip"]),
  ],
  "mass-in-grams": (n) => [
    `${n["seen"]} kg for ${n["size"]}?`,
    `about ${n["lightKg"]} to ${n["heavyKg"]} kg`,
    `If grams, this is ${n["kg"]} kg.`,
  ],
  // coats
  "window-incomplete": (n) => [
    `A metal window needs all four figures; ${n["lacking"]} is missing.`,
    "metalLowC, metalHighC, soakLeastMinutes and soakMostMinutes, or none of them",
  ],
  "window-reversed": (n) => [`Lower edge ${n["low"]} °C is above upper edge ${n["seen"]} °C.`, `above ${n["low"]}`],
  "soak-reversed": (n) => [
    `The longest soak, ${n["seen"]} min, is shorter than the least, ${n["least"]} min.`,
    `${n["least"]} or more`,
  ],
  "window-too-narrow": (n) => [
    `${n["low"]} to ${n["seen"]} °C leaves nothing once ${n["guard"]} °C of guard are taken off at both ends.`,
    `above ${n["needed"]} °C`,
    "A finer thermometer or a more even oven allows a smaller guard.",
  ],
  "window-out-of-reach": (n) => [
    `The metal must reach ${n["needed"]} °C with its guard; the hottest air that any oven for this coat gives is ${n["hottest"]} °C (${n["binds"]}).`,
    `metalLowC below ${n["most"]}`,
    text(n["slip"]),
  ],
  "coat-without-oven": (n) => [`No oven can bake this coat: ${n["why"]}.`, text(n["expected"])],
  // ovens and shop
  "area-needs-fixed": () => [
    "An oven whose space is an area needs a fixed cycle: without shelves the heat cannot be predicted.",
    "fixed",
  ],
  "handle-below-room": (n) => [
    `Pans never cool to ${n["seen"]} °C in a room of ${n["ambient"]} °C.`,
    `above ${n["ambient"]}`,
  ],
  "door-limit-below-room": (n) => [
    `The door could never open: the chamber never falls to ${n["seen"]} °C in a room of ${n["ambient"]} °C.`,
    `above ${n["ambient"]}`,
  ],
  "clean-burn-out-of-reach": (n) => [
    `No oven reaches the clean burn's ${n["seen"]} °C.`,
    `at most ${n["most"]}`,
    text(n["slip"]),
  ],
  "fahrenheit-as-celsius": (n) => [`${n["seen"]} °C is unlikely here.`, text(n["expected"]), text(n["slip"])],
  "length-unlikely": (n) => [`${n["seen"]} cm is unlikely here.`, text(n["expected"]), text(n["slip"])],
  "specific-heat-unlikely": (n) => [
    `${n["seen"]} J/kgK is unlikely for a metal.`,
    "100 to 5000 J/kgK",
    text(n["slip"]),
  ],
  "calorific-value-unlikely": (n) => [
    `${n["seen"]} kWh per ${n["unit"]} is unlikely for ${n["kind"]} gas.`,
    text(n["expected"]),
    text(n["slip"]),
  ],
  // loads held fixed
  "held-pan-twice": (n) => [
    `Item ${n["item"]} of ${n["seen"]} has coat ${n["coat"]} baked in ${n["first"]} already.`,
    "each coat once",
  ],
  "held-item-unknown": (n) => [
    `${n["id"]} has ${n["quantity"]} pieces; there is no item ${n["seen"]}.`,
    `1 to ${n["quantity"]}`,
  ],
  "held-coat-not-due": (n) => [
    `Coat ${n["seen"]} of ${n["id"]} is not due: ${n["first"]} to ${n["last"]} are.`,
    `${n["first"]} to ${n["last"]}`,
  ],
  "held-not-placed": (n) => [`${n["id"]} needs its place in this oven.`, text(n["expected"])],
  "held-not-empty": (n) => [`A ${n["kind"]} has no pans.`, "an empty list"],
  "held-order": (n) => [
    `${n["field"]} ${n["seen"]} is before ${n["earlierField"]} ${n["earlier"]}.`,
    `${n["earlier"]} or later`,
  ],
  "held-durations": (n) => [
    `${n["field"]} is ${n["seen"]}; this oven's ${n["what"]} make it ${n["right"]}.`,
    text(n["right"]),
  ],
  "held-set-point": (n) => [
    `The set-point ${n["seen"]} does not suit this oven.`,
    `a multiple of ${n["step"]} up to ${n["most"]} °C`,
  ],
  "held-needs-burner": (n) => [`A firing of a thermal oven needs ${n["field"]}.`, text(n["expected"])],
  "held-overlap": (n) => [
    `This load's door opens at ${n["seen"]}, while ${n["other"]} has the oven until ${n["until"]}.`,
    `${n["until"]} or later`,
  ],
  "held-before-start": (n) => [
    `A pinned load cannot open at ${n["seen"]}, before planning starts at ${n["planFrom"]}.`,
    `${n["planFrom"]} or later`,
  ],
  "held-oven-out": (n) => [`Oven ${n["oven"]} is out of use until ${n["until"]}.`, `${n["until"]} or later`],
  "held-unstaffed": (n) => [`Nobody is at work for ${n["what"]} of this pinned load.`, "inside one staffed interval"],
} satisfies Record<string, Sentence>;

export type ProblemCode = keyof typeof sentences;

/** The hint is part of the message too, so that one line tells all. */
export function problemWords(code: ProblemCode, numbers: Numbers): ProblemWords {
  const sentence: Sentence = sentences[code];
  const [wrong, allowed, hint] = sentence(rounded(numbers));
  return hint ? { message: `${wrong} ${hint}`, allowed, hint } : { message: `${wrong} Allowed: ${allowed}.`, allowed };
}

/** Three decimals are more than a workshop reads. */
function rounded(numbers: Numbers): Numbers {
  return Object.fromEntries(
    Object.entries(numbers).map(([key, value]) => [
      key,
      typeof value === "number" ? Math.round(value * 1000) / 1000 : value,
    ]),
  );
}

function text(value: number | string | undefined): string {
  return value === undefined ? "" : String(value);
}

function meant(nearest: number | string | undefined): string | undefined {
  return nearest === undefined ? undefined : `Did you mean ${nearest}?`;
}
