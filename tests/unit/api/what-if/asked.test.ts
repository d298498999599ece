/** More hands cannot make the best plan dearer, less room or time cannot make it cheaper: where the searches say so, it is said. */
import { expect, it } from "vitest";
import { caseOf, shown } from "../../../../api/what-if/asked.ts";
import type { Asked } from "../../../../api/what-if/asked.ts";
import type { Figures, Variant } from "../../../../api/contract/what-if.ts";
import type { Stand } from "../../../../api/shop/stand.ts";
import { shopDay } from "../../../help/service.ts";

const day = shopDay("small-morning");
const stand = { day, asOf: Date.parse(`${day.planFrom}:00Z`) } as Stand;

const figures = (cost: number): Figures => ({
  cost,
  gasKWh: 40,
  gasMoney: 4,
  crewMinutes: 300,
  crewMoney: cost - 4,
  lateTickets: 0,
  latePanMinutes: 0,
  lateMoney: 0,
  leftOverPans: 0,
  leftOverMoney: 0,
  firings: 5,
  finishAt: null,
});

/** What is told of a variant that costs so much beside a day of 30. */
function toldOf(variant: Variant, cost: number): string {
  const cases = [caseOf({ variant: null, stand, problem: null }), caseOf({ variant, stand, problem: null })];
  for (const [i, one] of cases.entries())
    one.told = { ...one.told, state: "done", figures: figures(i === 0 ? 30 : cost) };
  const ask = { variants: [variant], steps: 100, seed: 1 };
  const asked: Asked = { id: "w", ask, stand, cases, waiting: new Set(), stopped: false };
  return shown(asked).variants[0]!.told.join(" ");
}

const more: Variant = { kind: "sprayers", more: 1 };
const less: readonly Variant[] = [
  { kind: "wait", minutes: 15 },
  { kind: "slack", minutes: 3 },
  { kind: "shelf-out", oven: "box", shelf: "top" },
];

it("says that the searches have not ended where a variant is on its impossible side", () => {
  expect(toldOf(more, 30.5)).toContain("the searches have not ended");
  for (const variant of less) expect(toldOf(variant, 29.5)).toContain("the searches have not ended");
});

it("says nothing of it on the possible side, or without a difference", () => {
  expect(toldOf(more, 29.5)).not.toContain("not ended");
  for (const variant of less) for (const cost of [30, 31]) expect(toldOf(variant, cost)).not.toContain("not ended");
});
