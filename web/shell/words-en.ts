/** Every English text of the page, grouped by screen. */
import { whatIf } from "./en/what-if.ts";
import { close } from "./en/close.ts";
import { shop } from "./en/shop.ts";
import { about } from "./en/about.ts";
import { why } from "./en/why.ts";
import { pans } from "./en/pans.ts";
import { sheet } from "./en/sheet.ts";
import { day } from "./en/day.ts";
import { happened } from "./en/happened.ts";
import { log } from "./en/log.ts";
import { rush } from "./en/rush.ts";

export const words = {
  rush,
  sheet,
  pans,
  whatIf,
  close,
  log,
  happened,
  shop,
  about,
  why,
  shell: {
    title: "Ovenful",
    skip: "Skip to the content",
    places: "Screens",
    tokenTitle: "The shop's token",
    token: "Token",
    enter: "Enter",
    noAnswer: "The service does not answer. Nothing was saved.",
    kept: (time: string) =>
      `The service does not answer. This is what it said last, ${time}: to read, not to report. The oven's own clock and thermometer rule.`,
  },
  /** Who works at this device. */
  who: {
    title: "Who is working here?",
    hint: "First name or initials, kept on this device, told with what you report.",
    keep: "That's me",
    nobody: "Nobody in particular",
    now: "Working here",
    change: "(change)",
  },
  ...day,
  /** In the navigation. */
  screens: {
    day: "The day",
    pans: "Waiting pans",
  },
  units: {
    title: "Units",
    temperature: "Temperature",
    length: "Length",
    mass: "Mass",
    gas: "Gas",
  },
  /** Under a field of a form. */
  field: {
    needed: "This is needed.",
    noNumber: "Write a number.",
    whole: "Write a whole number.",
    range: (least: string, most: string) => `${least} to ${most}.`,
    atLeast: (least: string) => `${least} or more.`,
    atMost: (most: string) => `At most ${most}.`,
    usual: (least: string, most: string) => `Usual: ${least} to ${most}.`,
    unusual: "Outside the usual: check it.",
  },
  at: (time: string) => `at ${time}`,
  inTime: (n: number) =>
    n < 0 ? `${-n} min ago` : n >= 60 ? `in ${Math.floor(n / 60)} h ${n % 60} min` : n === 0 ? "now" : `in ${n} min`,
  booth: (n: number) => `Booth ${n}`,
  bench: (n: number) => `Bench ${n}`,
  load: (id: string) => `Load ${id}`,
  kind: { bake: "bake", "clean burn": "clean burn", preheat: "preheat" },
  loads: "Loads",
  columns: {
    load: "Load",
    oven: "Oven",
    setPoint: "Set-point",
    doorOpens: "Door opens",
    burnerOff: "Burner off",
    earliest: "Earliest burner off",
    latest: "Latest burner off",
    unload: "Out",
    pans: "Pans",
    gas: "Gas",
    where: "Where",
    what: "What",
    from: "From",
    to: "To",
    pan: "Pan",
    ticket: "Ticket",
    coat: "Coat",
    inWindow: "In its window",
    slack: "Slack",
    soak: "Soak",
    peak: "Peak",
    cooled: "Cool",
    ready: "Ready",
    promised: "Promised",
    late: "Late",
    why: "Why",
    habit: "Compared with",
    firings: "Firings",
    saved: "Saved",
    shelf: "Shelf",
    turned: "Orientation",
    mass: "Mass",
    size: "Size",
    coating: "Coating",
    state: "State",
    minute: "Clock",
    slowest: "Slowest metal",
    fastest: "Fastest metal",
  },
  offNote:
    "Between earliest and latest burner off every pan keeps its cure window. Later than planned moves what follows.",
  fixedCycle: "fixed cycle",
  habit: { "one pan per firing": "one pan per firing", "ticket order": "firing in ticket order" },
  warnings: "Mind this",
  cautions: "Cautions",
  none: "–",
  minutesUnit: "min",
  /** One plan against another. */
  difference: {
    pans: "Pans that move",
    what: "What",
    was: "Was",
    becomes: "Becomes",
    moved: "Moves by",
    noPan: "No pan moves.",
    inTime: "in time",
    minutes: (n: string) => `${n} min`,
    later: (text: string) => `${text} later`,
    earlier: (text: string) => `${text} earlier`,
    change: {
      same: "as before",
      earlier: "goes in earlier",
      later: "goes in later",
      new: "new",
      "left over": "left over",
      "planned again": "planned again",
      done: "done",
      "on hold": "waits outside the plan",
      gone: "no longer in the list",
      none: "nothing more",
    },
  },
} as const;
