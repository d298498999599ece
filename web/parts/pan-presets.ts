/** Usual bodies by metal and rim: what a pan weighs, how high it is, how long the blast cabinet takes. Suggestions only. */

export interface BodyPreset {
  readonly id: string;
  /** Key of the day's materials. */
  readonly material: string;
  /** Rim in cm -> kg. Frustum of the usual wall; cast iron with its handle agrees with makers' lists (10 in: 2.3–2.7 kg, 12 in: 3.2–4.1 kg). */
  readonly masses: Readonly<Record<number, number>>;
  /** Length of a handle that does not come off, cm. */
  readonly handleCm: number;
}

export const rimsCm = [20, 24, 26, 28, 30, 32] as const;

const bodies: readonly BodyPreset[] = [
  {
    id: "pressed aluminium",
    material: "aluminium",
    masses: { 20: 0.42, 24: 0.6, 26: 0.7, 28: 0.8, 30: 0.95, 32: 1.03 },
    handleCm: 0,
  },
  {
    id: "cast aluminium",
    material: "aluminium",
    masses: { 20: 0.7, 24: 1, 26: 1.15, 28: 1.35, 30: 1.55, 32: 1.75 },
    handleCm: 0,
  },
  {
    id: "carbon steel",
    material: "carbon steel",
    masses: { 20: 0.9, 24: 1.3, 26: 1.5, 28: 1.75, 30: 2, 32: 2.25 },
    handleCm: 0,
  },
  {
    id: "cast iron",
    material: "cast iron",
    masses: { 20: 1.6, 24: 2.2, 26: 2.6, 28: 3.1, 30: 3.6, 32: 4.1 },
    handleCm: 16,
  },
];

/** Bodies whose metal the day knows; a metal of the day that has no preset stands by its own name and suggests nothing. */
export function bodiesFor(materials: Readonly<Record<string, unknown>>): readonly BodyPreset[] {
  const known = bodies.filter(({ material }) => Object.hasOwn(materials, material));
  const others = Object.keys(materials).filter((material) => !known.some((body) => body.material === material));
  return [...known, ...others.map((material) => ({ id: material, material, masses: {}, handleCm: 0 }))];
}

/** kg of one body, between and beyond the usual rims by its area. Undefined where the rim is no size of a pan, or no preset knows. */
export function suggestedMassKg({ masses }: BodyPreset, rimCm: number): number | undefined {
  const nearest = rimsCm.reduce((best, rim) => (Math.abs(rim - rimCm) < Math.abs(best - rimCm) ? rim : best));
  const mass = masses[nearest];
  if (mass === undefined || !(rimCm >= 8 && rimCm <= 60)) return undefined;
  return Math.round(mass * (rimCm / nearest) ** 2 * 100) / 100;
}

export function suggestedHeightCm(rimCm: number): number {
  return rimCm <= 20 ? 4.5 : rimCm <= 26 ? 5 : rimCm <= 28 ? 5.5 : 6;
}

/** Minutes of blasting at 0.65 cm² a second (dry one-step stripping measured at 0.6–0.7) over base and wall of a usual pan. */
export function suggestedStripMinutes(rimCm: number): number {
  const heightCm = suggestedHeightCm(rimCm);
  const baseCm = rimCm * 0.75;
  const slantCm = Math.hypot((rimCm - baseCm) / 2, heightCm);
  const areaCm2 = (Math.PI / 4) * baseCm ** 2 + (Math.PI / 2) * (rimCm + baseCm) * slantCm;
  return Math.round(areaCm2 / 0.65 / 60);
}
