/** A proposal in sentences, and what to read next for the figures that the readings do not tell. */
import type { CalibrationAnswer } from "../contract/calibrating.ts";

type Figure = CalibrationAnswer["figures"][number];

const names: Readonly<Record<Figure["figure"], readonly [name: string, unit: string, readNext: string]>> = {
  heatCapacityKJPerK: ["Heat capacity", "kJ/K", "read the chamber through a light and a heavy load"],
  wallLossWPerK: [
    "Wall loss",
    "W/K",
    "read the chamber for an hour or two while the empty oven cools shut, its fan off",
  ],
  exhaustWPerK: ["Exhaust while burning", "W/K", "read the chamber while it heats, and while it cools shut afterwards"],
  coastExhaustWPerK: ["Exhaust while coasting", "W/K", "read the chamber between burner off and unloading"],
  filmWPerM2K: ["Film coefficient", "W/m²K", "follow the metal of one pan of known mass while it heats"],
  efficiency: ["Efficiency", "", "read the gas meter before the burner is lit and after it is off"],
};

export function calibrationWords({
  figures,
  residualNow,
  residualProposed,
}: Omit<CalibrationAnswer, "words">): string[] {
  return [...figures.map(figureWords), ...residualWords(residualNow, residualProposed)];
}

function figureWords({ figure, now, proposed, errorPercent, told }: Figure): string {
  const [name, unit, readNext] = names[figure];
  const measure = unit === "" ? "" : ` ${unit}`;
  if (told) return `${name}: ${proposed}${measure} (± ${errorPercent} %) instead of ${now}.`;
  return `${name}: the readings do not tell it, so it stays at ${now}${measure}. To know it, ${readNext}.`;
}

type Residual = CalibrationAnswer["residualNow"];

function residualWords(now: Residual, proposed: Residual): string[] {
  const kinds = [
    ["chamberK", "chamber", "K"],
    ["metalK", "metal", "K"],
    ["gasKWh", "gas", "kWh"],
  ] as const;
  return kinds.flatMap(([kind, name, unit]) => {
    const [before, after] = [now[kind], proposed[kind]];
    if (before === null || after === null) return [];
    return [
      `The ${name} readings are off by ${after.toFixed(1)} ${unit} with these figures, by ${before.toFixed(1)} ${unit} with the present ones.`,
    ];
  });
}
