/**
 * Code and numbers of a reason -> a plain sentence, naming the numbers it uses; the cautions every plan carries; what a day
 * gives no price for; how late a ticket is by the clock times shown; which load a clean burn is owed before.
 */

export type ReasonNumbers = Readonly<Record<string, number | string>>;

type Sentence = (n: ReasonNumbers) => string;

export const reasonSentences = {
  // left over: until
  "no-room-in-horizon": (n) => `no firing fits before ${word(n, "until", "the end of staffed time")}`,
  "costs-more-than-leaving": (n) =>
    `a firing before ${word(n, "until", "the end of staffed time")} would cost more than leaving it over`,
  "earlier-coat-left": () => "the coat before it is left over",
  "held-load-takes-oven": (n) => `a load held fixed${part(n, "load", " (", ")")} takes the oven`,
  // two bakes that cannot share a firing: one, other, massKg, maxLoadKg, solventMl, maxSolventMl, shelves, dm2
  "never-together": (n) =>
    `${word(n, "one", "one mix group")} and ${word(n, "other", "the other")} never share a firing`,
  "same-group-only": (n) =>
    `only one mix group per firing${part(n, "one", ": ", "")}${part(n, "other", " here, ", " there")}`,
  "no-shared-oven": () => "no oven may take both",
  "no-room-on-shelves": (n) =>
    "dm2" in n
      ? `together they need more than ${num(n, "dm2")} dm²`
      : "the shelves have no room for both with their gaps kept",
  "too-heavy": (n) =>
    `together they are too heavy${part(n, "massKg", ": ", " kg")}${part(n, "maxLoadKg", ", and the oven bears ", " kg")}`,
  "too-much-solvent": (n) =>
    `together they bring too much solvent${part(n, "solventMl", ": ", " mL")}${part(n, "maxSolventMl", ", and the oven's plate allows ", " mL")}`,
  // slow, fast, setPointC, lagMinutes, needsUntilMinute, staysUntilMinute (minutes from the door's closing)
  "windows-do-not-meet": (n) =>
    "needsUntilMinute" in n
      ? `at ${num(n, "setPointC")} °C ${word(n, "slow", "the slower pan")} ${lag(n)}needs the burner until minute ` +
        `${num(n, "needsUntilMinute")} after the door closes, and ${word(n, "fast", "the quicker one")} may stay only until ` +
        `minute ${num(n, "staysUntilMinute")}`
      : "no set-point and no shelf keep both in their windows at once",
  // hot, cool, needsC, allowsC
  "ranges-do-not-meet": (n) =>
    `${word(n, "hot", "one pan")} needs its metal at ${num(n, "needsC")} °C at least and ` +
    `${word(n, "cool", "the other")} may not get hotter than ${num(n, "allowsC")} °C`,
  "ready-too-far-apart": (n) =>
    `they are ready ${num(n, "apartMinutes", "too many")} min apart and one may not wait so long`,
  // what to mind: from, kWh, leftKWh, load, drawKW, maxDrawKW
  "bottle-short": (n) =>
    `The plan needs ${num(n, "kWh")} kWh of gas and the bottle holds about ${num(n, "leftKWh")} kWh` +
    `${part(n, "load", ": it would run out during ", "")}. Have a full one connected before that.`,
  "draw-off": (n) =>
    `The burners draw ${num(n, "drawKW")} kW${part(n, "from", " at ", "")} and the bottle gives ${num(n, "maxDrawKW")} kW ` +
    "at its level and temperature. Change to a fuller or a second bottle before the hot firing.",
} satisfies Record<string, Sentence>;

/** A code without words is shown as it is, so that nothing goes unsaid. */
export function reasonSentence(reason: { readonly code: string; readonly numbers: ReasonNumbers }): string {
  const sentences: Readonly<Record<string, Sentence>> = reasonSentences;
  return Object.hasOwn(sentences, reason.code)
    ? (sentences[reason.code]?.(reason.numbers) ?? reason.code)
    : reason.code;
}

/** Fluoropolymer fumes: hazardous from about 330 °C, toxic from about 450 °C (guide to the safe handling of fluoropolymer resins). */
const FUME_C = 330;
const TOXIC_FUME_C = 450;

export interface Hazards {
  /** Null: no set-point is planned. */
  readonly highestSetPointC: number | null;
  /** Some coat brings solvent into an oven. */
  readonly solvent: boolean;
  /** Some firing is not over before everybody leaves. */
  readonly leftAlone: boolean;
}

/** Shown with every plan. The wording is ours, the cautions common practice. */
export function cautions({ highestSetPointC, solvent, leftAlone }: Hazards): string[] {
  const said = [
    "This plan advises. The oven's plate, its burner controls and interlocks, the coating's data sheet, local codes and " +
      "licensed gas and electrical practice rule over it.",
    "Purge in full before every light-up. Never shorten or bypass it; after a power or fan failure shut the gas and purge again.",
    "Metal just out of the oven burns and looks cold. Gloves and face shield at the door; mark the cooling rack with the time " +
      "it may be touched.",
    "Keep the exhaust and the carbon monoxide alarm on while the burner is lit. Headache or nausea: everybody out.",
  ];
  if (solvent) {
    said.push(
      "Solvent: never load more than the oven's plate allows, flash off outside the oven with the exhaust running, " +
        "no wet rags in the oven.",
    );
  }
  if (leftAlone) {
    said.push(
      "Left alone: in this plan an oven burns or cools down while nobody is there. Only where its plate, its burner controls " +
        "and local codes allow that; else tick in the shop that somebody stays for the whole firing, and plan again.",
    );
  }
  if (highestSetPointC !== null && highestSetPointC >= FUME_C) {
    said.push(
      `Fumes: from about ${FUME_C} °C fluoropolymer gives off hazardous fumes, from about ${TOXIC_FUME_C} °C toxic ones. ` +
        "Exhaust on, oven under slight suction, no smoking, no birds near; flu-like illness hours later needs a doctor.",
    );
  }
  return said;
}

/** Money per kWh and per pan and hour, of a day as written: what is missing costs nothing. */
interface Priced {
  readonly prices?:
    | {
        readonly gasPerKWh?: number | undefined;
        readonly latePerPanHour?: number | undefined;
        readonly rushLatePerPanHour?: number | undefined;
      }
    | undefined;
  readonly pans: readonly { readonly latePerHour?: number | null | undefined }[];
}

/** Why a plan may waste gas or break a promise at no cost; null where gas and lateness have a price. */
export function unpricedText({ prices = {}, pans }: Priced): string | null {
  const { gasPerKWh = 0, latePerPanHour = 0, rushLatePerPanHour = 0 } = prices;
  const isLatePriced = latePerPanHour > 0 || rushLatePerPanHour > 0 || pans.some((pan) => (pan.latePerHour ?? 0) > 0);
  const missing = [...(gasPerKWh > 0 ? [] : ["gas"]), ...(isLatePriced ? [] : ["lateness"])];
  if (missing.length === 0) return null;
  return `The day gives no price for ${missing.join(" and ")}: this plan does not try to avoid any.`;
}

interface HandOver {
  readonly promisedAt: string | null;
  readonly readyAt: string | null;
}

const MINUTE_MS = 60_000;

/** The minute, counted from 1970, at which something is ready as shown: seconds count as one, since nothing is handed over before. */
export function readyMinute(readyAt: string): number {
  return Math.ceil(Date.parse(readyAt) / MINUTE_MS);
}

/**
 * Minutes from the promise to the hand-over by the clock times shown beside them: seconds of a promise fall off. 0: in time, or
 * one of them is not known.
 */
export function lateMinutesShown({ promisedAt, readyAt }: HandOver): number {
  if (promisedAt === null || readyAt === null) return 0;
  return Math.max(0, readyMinute(readyAt) - Math.floor(Date.parse(promisedAt) / MINUTE_MS));
}

/** What of a day, as written, says which coats may not go into a soiled oven. */
interface Mixing {
  readonly mixing?: { readonly cleanBurn?: { readonly before: readonly string[] } | null | undefined } | undefined;
  readonly coatings: readonly { readonly id: string; readonly coats: readonly { readonly mixGroup: string }[] }[];
  readonly pans: readonly { readonly id: string; readonly coating: string }[];
}

interface Firing {
  readonly id: string;
  readonly oven: string;
  readonly kind: string;
  readonly pans: readonly { readonly id: string; readonly coat: number }[];
}

/**
 * The id of the first load after a clean burn in its oven that may not go into a soiled one: others may stand between, and whoever
 * skips the burn should know what that spoils. Undefined where there is none, or for another kind of firing.
 */
export function burnOwedTo(
  { mixing, coatings, pans }: Mixing,
  loads: readonly Firing[],
  burn: Firing,
): string | undefined {
  if (burn.kind !== "clean burn") return undefined;
  const before = mixing?.cleanBurn?.before ?? [];
  const isSpoilt = (pan: Firing["pans"][number]): boolean => {
    const line = pans.find(({ id }) => id === pan.id);
    const coats = coatings.find(({ id }) => id === line?.coating)?.coats ?? [];
    return before.includes(coats[pan.coat - 1]?.mixGroup ?? "");
  };
  const from = loads.findIndex(({ id }) => id === burn.id);
  return loads.slice(from + 1).find(({ oven, pans: own }) => oven === burn.oven && own.some(isSpoilt))?.id;
}

function num(n: ReasonNumbers, key: string, otherwise = "?"): string {
  const value = n[key];
  return typeof value === "number" ? String(Math.round(value * 10) / 10) : (value ?? otherwise);
}

/** Who is at temperature first says nothing where the slower one only soaks longer. */
function lag(n: ReasonNumbers): string {
  const minutes = n["lagMinutes"];
  return typeof minutes === "number" && minutes >= 0.05
    ? `is at temperature ${num(n, "lagMinutes")} min after ${word(n, "fast", "the quicker one")}; it `
    : "";
}

function word(n: ReasonNumbers, key: string, otherwise: string): string {
  return String(n[key] ?? otherwise);
}

function part(n: ReasonNumbers, key: string, before: string, after: string): string {
  return key in n ? `${before}${num(n, key)}${after}` : "";
}
