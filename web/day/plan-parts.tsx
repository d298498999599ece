/** The parts of the day's first view around the clock: loads, promises, gas, cautions. */
import type { PlanLoad } from "../../api/contract/plan.ts";
import { clockOf, dateOf } from "../parts/clock.ts";
import { burnerOffWindow, ovenName, pieceName } from "../parts/day-lookup.ts";
import type { Planned } from "../parts/day-lookup.ts";
import { gas as gasSaid, money, rounded, temperature } from "../parts/figures.ts";
import { Table } from "../parts/table.tsx";
import { words } from "../shell/words-en.ts";

export function Loads({ planned: { day, plan } }: { readonly planned: Planned }) {
  const c = words.columns;
  return (
    <section>
      <h2>{words.loads}</h2>
      <Table
        caption={words.loads}
        columns={[c.load, c.oven, c.what, c.setPoint, c.doorOpens, c.earliest, c.latest, c.unload, c.pans, c.gas]}
        rows={plan.loads.map((load) => [
          <LoadLink load={load} />,
          ovenName(day, load.oven),
          words.kind[load.kind],
          load.setPointC === null ? words.fixedCycle : temperature(load.setPointC),
          clockOf(load.doorOpensAt),
          ...offCells({ day, plan }, load),
          clockOf(load.unloadAt),
          load.pans.length,
          gasSaid(load.gasKWh),
        ])}
      />
      <p class="fine">{words.offNote}</p>
    </section>
  );
}

function LoadLink({ load }: { readonly load: PlanLoad }) {
  return (
    <a class="loadlink" href={`#/load/${encodeURIComponent(load.id)}`}>
      {load.id}
    </a>
  );
}

function offCells({ day }: Planned, load: PlanLoad): [string, string] {
  const off = burnerOffWindow(day, load);
  return off === null ? [words.none, words.none] : [clockOf(off.earliest), clockOf(off.latest)];
}

export function Promises({ planned: { day, plan } }: { readonly planned: Planned }) {
  const late = plan.tickets.filter(({ lateMinutes }) => lateMinutes > 0);
  const c = words.columns;
  const when = (instant: string): string =>
    dateOf(instant) === dateOf(plan.loads[0]?.doorOpensAt ?? instant)
      ? clockOf(instant)
      : `${dateOf(instant)} ${clockOf(instant)}`;
  return (
    <section>
      <h2>{words.lateTitle}</h2>
      {late.length === 0 ? (
        <p>{words.noneLate}</p>
      ) : (
        <Table
          caption={words.lateTitle}
          columns={[c.ticket, c.promised, c.ready, c.late, c.why]}
          rows={late.map((one) => [
            one.ticket,
            one.promisedAt === null ? null : when(one.promisedAt),
            when(one.readyAt),
            `${rounded(one.lateMinutes)} min`,
            one.reason ?? words.noReason,
          ])}
        />
      )}
      {plan.leftOver.length > 0 && (
        <Table
          caption={words.leftOver}
          columns={[c.pan, c.why]}
          rows={plan.leftOver.map((one) => [pieceName(day, one), one.reason])}
        />
      )}
    </section>
  );
}

export function Gas({ planned: { day, plan } }: { readonly planned: Planned }) {
  const { gas } = plan;
  const c = words.columns;
  return (
    <section>
      <h2>{words.gasTitle}</h2>
      <p class="figure">{words.gasUsed(rounded(gas.kWh, 1), rounded(gas.units, 1), gas.unit.replace(/^m3$/, "m³"))}</p>
      <p>{words.carbon(rounded(gas.kgCO2e, 1))}</p>
      <Table
        caption={words.gasTitle}
        columns={[c.habit, c.firings, c.gas, c.saved]}
        rows={gas.comparedWith.map((one) => [
          words.habit[one.habit],
          one.firings,
          gasSaid(one.kWh),
          `${gasSaid(one.savedKWh)}, ${money(one.savedCost, day.currency ?? "EUR")}`,
        ])}
      />
    </section>
  );
}

export function Cautions({ planned: { plan } }: { readonly planned: Planned }) {
  return (
    <section class="cautions">
      {plan.warnings.length > 0 && (
        <>
          <h2>{words.warnings}</h2>
          <ul>
            {plan.warnings.map(({ message }) => (
              <li>{message}</li>
            ))}
          </ul>
        </>
      )}
      <h2>{words.cautions}</h2>
      <ul>
        {plan.cautions.map((caution) => (
          <li>{caution}</li>
        ))}
      </ul>
    </section>
  );
}
