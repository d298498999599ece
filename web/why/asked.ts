/** What can be asked about: pans of the list that still need a bake, and loads still to come. */
import type { ExplainAnswer } from "../../api/contract/explaining.ts";
import { clockOf } from "../parts/clock.ts";
import { isToCome } from "../parts/load-now.ts";
import type { LoadNow } from "../parts/load-now.ts";
import { ask, readPans } from "../shell/service.ts";
import type { WaitingPan } from "../shell/service.ts";
import { words } from "../shell/words-en.ts";

export type Choice = readonly [id: string, said: string];

const askable: readonly string[] = ["waiting", "on hold"];

export async function askablePans(): Promise<readonly WaitingPan[]> {
  const { pans } = await readPans();
  return pans.filter(({ state }) => askable.includes(state)).map(({ pan }) => pan);
}

export function panChoices(pans: readonly WaitingPan[]): readonly Choice[] {
  return pans.map((pan) => [pan.id, words.why.ofTicket(pan.id, pan.coating)]);
}

/** Loads of the plan in force that nobody opened yet, that hold pans, and not the pan asked about or a piece of it. */
export function loadChoices(
  loads: readonly LoadNow[],
  now: number,
  pan: string,
  ovenName: (id: string) => string,
): Choice[] {
  const isOfIt = ({ id }: { readonly id: string }): boolean => id === pan || id.startsWith(`${pan}.`);
  return loads
    .filter((one) => isToCome(one, now) && one.load.pans.length > 0 && !one.load.pans.some(isOfIt))
    .map(({ id, load }) => [id, words.why.load(id, ovenName(load.oven), clockOf(load.doorOpensAt), load.pans.length)]);
}

export const explain = (one: string, other: string): Promise<ExplainAnswer> => ask("POST", "/explain", { one, other });
