/** Every pan of the load: where it stands, when it is in its window, how long it soaks, how hot it gets. */
import type { PlanLoad } from "../../api/contract/plan.ts";
import { clockOf } from "../parts/clock.ts";
import { coatName, coatOf, panOf, pieceName } from "../parts/day-lookup.ts";
import type { Planned } from "../parts/day-lookup.ts";
import { bare, rounded, temperature } from "../parts/figures.ts";
import { Table } from "../parts/table.tsx";
import { movedBy } from "../parts/zone.ts";
import { words } from "../shell/words-en.ts";
import type { SheetPart } from "./load-sheet.tsx";

export function PansTable({ planned: { day }, one: { load } }: SheetPart) {
  const c = words.columns;
  if (load.pans.length === 0) return <p>{words.sheet.noPans}</p>;
  return (
    <section class="pans-of-load">
      <Table
        caption={words.sheet.pansHint}
        columns={[c.pan, c.ticket, c.coat, c.shelf, c.turned, c.inWindow, c.soak, c.peak, c.slack]}
        rows={load.pans.map((pan) => [
          pieceName(day, pan),
          panOf(day, pan.id)?.ticket ?? pan.id,
          coatName(day, pan),
          pan.shelf,
          orientation(day, pan),
          windowOf(day, pan),
          soakOf(day, pan),
          peakOf(day, pan),
          slackOf(day, load, pan),
        ])}
      />
    </section>
  );
}

type Day = Planned["day"];
type Pan = PlanLoad["pans"][number];

/** A disc has no orientation. */
function orientation(day: Day, pan: Pan): string | null {
  if (panOf(day, pan.id)?.shape.kind !== "rectangle") return null;
  return pan.turned ? words.sheet.turned : words.sheet.unturned;
}

function windowOf({ timeZone }: Day, { inWindowAt, soakMinutes }: Pan): string | null {
  if (inWindowAt === null || soakMinutes === null) return null;
  return `${clockOf(inWindowAt)} – ${clockOf(movedBy(timeZone, inWindowAt, soakMinutes))}`;
}

function soakOf(day: Day, pan: Pan): string | null {
  if (pan.soakMinutes === null) return null;
  const bake = coatOf(day, pan)?.bake;
  const [least, most] = [bake?.soakLeastMinutes ?? null, bake?.soakMostMinutes ?? null];
  const said = words.sheet.minutes(rounded(pan.soakMinutes, 1));
  return least === null || most === null ? said : `${said} (${least} – ${most})`;
}

function peakOf(day: Day, pan: Pan): string | null {
  if (pan.peakC === null) return null;
  const highC = coatOf(day, pan)?.bake.metalHighC ?? null;
  return highC === null ? temperature(pan.peakC) : `${temperature(pan.peakC)} (≤ ${bare("temperature", highC)})`;
}

/** How much less this pan could soak, and how much later the burner of its load could go off. */
function slackOf(day: Day, load: PlanLoad, { soakMinutes, ...pan }: Pan): string | null {
  const least = coatOf(day, pan)?.bake.soakLeastMinutes ?? null;
  if (soakMinutes === null || least === null || load.slackMinutes === null) return null;
  return `−${rounded(Math.max(0, soakMinutes - least), 1)} / +${load.slackMinutes} min`;
}
