/** What one plan changes against another: pan by pan and ticket by ticket, changed ones only. */
import type { Difference, PanDifference } from "../../api/contract/searching.ts";
import { words } from "../shell/words-en.ts";
import { whenOf } from "./clock.ts";
import { rounded, temperature } from "./figures.ts";
import { Table } from "./table.tsx";

const unchanged: ReadonlySet<PanDifference["change"]> = new Set(["same", "done", "none"]);

export function PlanDifference({ difference }: { readonly difference: Difference }) {
  const w = words.difference;
  const c = words.columns;
  const pans = difference.pans.filter(({ change }) => !unchanged.has(change));
  const tickets = difference.tickets.filter(({ minutes }) => minutes !== 0);
  const at = (instant: string | null): string | null => (instant === null ? null : whenOf(instant, difference.asOf));
  const bake = (one: PanDifference["was"]): string | null =>
    one === null
      ? null
      : [at(one.doorOpensAt), words.load(one.load), one.setPointC === null ? null : temperature(one.setPointC)]
          .filter((part) => part !== null)
          .join(", ");
  return (
    <>
      {tickets.length > 0 && (
        <Table
          caption={w.tickets}
          columns={[c.ticket, c.promised, w.was, w.becomes, w.moved, c.late]}
          rows={tickets.map((one) => [
            one.ticket,
            at(one.promisedAt),
            at(one.wasReadyAt),
            at(one.readyAt),
            laterBy(one.minutes),
            one.lateMinutes === null || one.lateMinutes <= 0 ? null : w.minutes(rounded(one.lateMinutes)),
          ])}
        />
      )}
      {pans.length > 0 && (
        <Table
          caption={w.pans}
          columns={[c.pan, w.what, w.was, w.becomes, w.moved]}
          rows={pans.map((one) => [
            one.pan,
            w.change[one.change],
            bake(one.was),
            bake(one.becomes),
            laterBy(one.minutes),
          ])}
        />
      )}
      {pans.length === 0 && tickets.length === 0 && <p>{w.nothing}</p>}
    </>
  );
}

function laterBy(minutes: number | null): string | null {
  if (minutes === null || minutes === 0) return null;
  const text = words.difference.minutes(rounded(Math.abs(minutes)));
  return minutes > 0 ? words.difference.later(text) : words.difference.earlier(text);
}
