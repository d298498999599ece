/** Gas so far and for the whole day, against what the named habits would burn. */
import { gas, money, rounded } from "../parts/figures.ts";
import type { Planned } from "../parts/day-lookup.ts";
import type { LoadNow } from "../parts/load-now.ts";
import { millisOf } from "../parts/clock.ts";
import { Table } from "../parts/table.tsx";
import { words } from "../shell/words-en.ts";

interface GasParts {
  readonly planned: Planned;
  readonly loads: readonly LoadNow[];
  readonly now: number;
}

export function GasCard({ planned: { day, plan }, loads, now }: GasParts) {
  const c = words.columns;
  const currency = day.currency ?? "EUR";
  const cleaning = plan.loads.filter(({ kind }) => kind === "clean burn").reduce((sum, { gasKWh }) => sum + gasKWh, 0);
  return (
    <section class="card">
      <h2>{words.gas.title}</h2>
      <p class="figure">{words.gas.ofDay(gas(burnt(loads, now)), gas(plan.gas.kWh))}</p>
      <p class="fine">
        {words.gas.bill(rounded(plan.gas.units, 1), plan.gas.unit.replace(/^m3$/, "m³"), rounded(plan.gas.kgCO2e, 1))}
      </p>
      <Table
        caption={words.gas.compared}
        columns={[c.habit, c.gas, c.saved]}
        rows={plan.gas.comparedWith.map((one) => [
          <>
            {words.habit[one.habit]} <small>{words.gas.firings(one.firings)}</small>
          </>,
          gas(one.kWh),
          <>
            {gas(one.savedKWh)}
            <br />
            {money(one.savedCost, currency)}
          </>,
        ])}
      />
      {cleaning > 0 && <p class="fine">{words.gas.cleaning(gas(cleaning))}</p>}
    </section>
  );
}

/** Of firings whose burner is off for good. What burns now is counted when it is off. */
export function burnt(loads: readonly LoadNow[], now: number): number {
  const over = loads.filter(
    ({ load, state }) => state === "fired" || millisOf(load.burnerOffAt ?? load.unloadAt) <= now,
  );
  return over.reduce((sum, { load }) => sum + load.gasKWh, 0);
}
