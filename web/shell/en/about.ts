/** Texts of the page about the program: cautions, what the plan leaves out, licences. */
export const about = {
  title: "About",
  lead: "Ovenful advises which pans share which firing, on which shelf, at what set-point and when. It does not run the oven.",
  rulesTitle: "What rules over the plan",
  rules:
    "Burner controls, interlocks, the oven's plate, the coating's data sheet, local codes, and licensed gas and electrical practice. Where the plan and one of them differ, the plan is wrong.",
  cautionsTitle: "Cautions",
  cautionsWhy:
    "The usual ones of the trade. Knowing them replaces no training, and no tick on this page makes a danger go away.",
  cautions: [
    ["Purge", "Never bypass it, never shorten it. People have died of skipped purges."],
    [
      "Solvent",
      "Keep the solvent of a load within the oven's plate, and the exhaust running. Flash off outside the oven. No rags wet with solvent near it.",
    ],
    [
      "Fumes",
      "Fluoropolymer may give off hazardous fumes above about 330 °C and toxic ones above about 450 °C: extraction on, nobody at an open door without protection. What follows can feel like flu, hours later. No smoking things at the bench. No birds nearby: they die of it.",
    ],
    [
      "Suction at the door",
      "For fumes a slight suction is advised, for even heat some ask for the opposite. The oven's technician sets it; this program takes no side.",
    ],
    ["Carbon monoxide", "An alarm, fresh air for the burner, a service each year. Headache or nausea: everybody out."],
    ["Bottled gas", "It is heavier than air. Bottle upright and outside, no spark and no drain below it."],
    [
      "Burns",
      "A pan at 400 °C looks cold. Mark the rack with the hour until which it is hot. Gloves and face shield at the door.",
    ],
    ["Hollow parts", "A closed hollow handle or rim can burst when heated. Vent it, or leave the pan out."],
    ["Dust", "Blasting dust and old coats may hold lead or chromium: respirator and extraction."],
    [
      "Spray area",
      "No flame and no spark where it is sprayed. An oven next to it only with ventilation that starts first and shuts the heat when it fails.",
    ],
    [
      "Fan or power failed",
      "Gas off. Purge again in full before lighting. Measure and inspect every pan that was inside.",
    ],
    ["Food", "Every coat must be approved for food. Keep its data sheet with the ticket."],
    [
      "Thermometer",
      "Bright bare metal reads far too low on an infrared thermometer. Aim at a coated or oxidised spot.",
    ],
  ],
  leftOutTitle: "What the plan leaves out",
  leftOut: [
    "Pans that shade each other within a load.",
    "Air that is not well mixed: shelves have one offset each.",
    "Film and specific heat that change with temperature: measure near the temperature you bake at.",
  ],
  boundTitle: "How good a plan is said to be",
  bound:
    "“At most so many percent above the best possible” is a computed bound: no plan that keeps the same rules costs less. “Proven best” is said only where plan and bound meet. An independent checker works every plan out again before it is shown.",
  dataTitle: "Your data",
  data: "Everything stays in one file on the shop's own computer. The page asks nobody else for anything.",
  offlineTitle: "When the service is away",
  offlineKept:
    "This device keeps the last plan: day, sheets and pans can be read, also after the page was closed. Nothing can be reported until the service answers again.",
  offlineNot:
    "This browser keeps no page from here: it does so only over HTTPS, or on the shop's own computer. Leave this page open and do not load it again: it goes on showing what it read last. Keep the load sheets printed. The README says how a shop gets HTTPS.",
  versionTitle: "Version and licences",
  version: (text: string) => `Version ${text}.`,
  openApi: "The service describes itself at",
  own: "Ovenful: MIT licence.",
  licences: "Made with",
  column: { library: "Library", version: "Version", licence: "Licence" },
} as const;
