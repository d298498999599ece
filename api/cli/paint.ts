/** Emphasis on a terminal by ECMA-48 codes. Words carry the meaning; colour only repeats it. */
export interface Paint {
  readonly heading: (text: string) => string;
  readonly alarm: (text: string) => string;
  readonly quiet: (text: string) => string;
}

const as = (on: number, off: number) => (text: string) => `\u001b[${on}m${text}\u001b[${off}m`;
const asIs = (text: string): string => text;

export const plain: Paint = { heading: asIs, alarm: asIs, quiet: asIs };
export const colourful: Paint = { heading: as(1, 22), alarm: as(31, 39), quiet: as(2, 22) };
