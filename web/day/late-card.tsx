/** Late tickets and why, what is left over and why, and what to mind. */
import { lateMinutesShown } from "../../api/contract/words.ts";
import { millisOf, whenOf } from "../parts/clock.ts";
import { pieceName } from "../parts/day-lookup.ts";
import type { Planned } from "../parts/day-lookup.ts";
import { rounded } from "../parts/figures.ts";
import { inUnits } from "../parts/said.ts";
import { minuteUp } from "../parts/zone.ts";
import { words } from "../shell/words-en.ts";

export function LateCard({ planned: { day, plan } }: { readonly planned: Planned }) {
  const late = plan.tickets.filter(({ lateMinutes }) => lateMinutes > 0);
  const first = plan.loads[0]?.doorOpensAt ?? plan.madeAt;
  const at = (instant: string): string => whenOf(instant, first);
  return (
    <section class="card" aria-label={words.late.title} tabIndex={0}>
      <h2>{words.late.title}</h2>
      <p class="figure">{late.length === 0 ? words.late.none : words.late.many(late.length)}</p>
      <ul class="plain">
        {late
          .toSorted((a, b) => millisOf(a.readyAt) - millisOf(b.readyAt))
          .map((one) => (
            <li>
              <strong>{words.late.one(one.ticket, rounded(lateMinutesShown(one)))}</strong>{" "}
              {one.promisedAt !== null && words.late.times(at(one.promisedAt), at(minuteUp(day.timeZone, one.readyAt)))}{" "}
              {inUnits(one.reason ?? words.late.noReason)}
            </li>
          ))}
      </ul>
      {plan.leftOver.length > 0 && (
        <>
          <h3>{words.late.leftOver}</h3>
          <ul class="plain">
            {plan.leftOver.map((one) => (
              <li>
                <strong>{pieceName(day, one)}</strong> {words.late.fromCoat(one.coat)} {inUnits(one.reason)}
              </li>
            ))}
          </ul>
        </>
      )}
      {plan.warnings.length > 0 && (
        <>
          <h3>{words.late.warnings}</h3>
          <ul class="plain">
            {plan.warnings.map(({ message }) => (
              <li>{inUnits(message)}</li>
            ))}
          </ul>
        </>
      )}
    </section>
  );
}
