/** The drawn firing: both metals over their windows, the figures of both side by side, and the curves as a table. */
import type { DrawnFiring, ExplainAnswer } from "../../api/contract/explaining.ts";
import { rounded, temperature, temperatureSpan } from "../parts/figures.ts";
import { inUnits } from "../parts/said.ts";
import { Table } from "../parts/table.tsx";
import { words } from "../shell/words-en.ts";
import { MetalsDrawing } from "./metals-drawing.tsx";

interface ExplainedParts {
  readonly answer: ExplainAnswer;
  readonly ovenName: (id: string) => string;
}

export function Explained({ answer: { shares, firing }, ovenName }: ExplainedParts) {
  const w = words.why;
  if (firing === null) return <p>{w.noDrawing}</p>;
  const heading = shares ? w.drawn.shares : w.drawn.nearest;
  return (
    <section>
      <h2>{heading(ovenName(firing.oven), temperature(firing.setPointC))}</h2>
      <MetalsDrawing firing={firing} />
      <MetalsTable firing={firing} />
      <details>
        <summary>{w.curve}</summary>
        <CurveTable firing={firing} />
      </details>
    </section>
  );
}

type Metal = DrawnFiring["metals"][number];

function MetalsTable({ firing: { metals } }: { readonly firing: DrawnFiring }) {
  const w = words.why;
  const minutes = (n: number): string => w.minute(rounded(n, 1));
  const row = (name: string, said: (metal: Metal) => string) => [name, ...metals.map(said)];
  return (
    <Table
      caption={w.figures}
      columns={["", ...metals.map(({ pan }) => pan)]}
      rows={[
        row(w.row.coat, ({ coatName }) => coatName),
        row(w.row.shelf, ({ shelf }) => shelf ?? w.row.noShelf),
        row(w.row.window, ({ lowestC, highestC }) => w.from(temperature(lowestC), temperature(highestC))),
        row(w.row.guard, ({ guardC }) => temperatureSpan(guardC)),
        row(w.row.soakAsked, (metal) => w.from(rounded(metal.soakLeastMinutes), minutesOf(metal.soakMostMinutes))),
        row(w.row.inWindow, ({ inWindowMinute }) =>
          inWindowMinute === null ? w.row.never : w.afterClosing(rounded(inWindowMinute, 1)),
        ),
        row(w.row.soak, ({ soakMinutes }) => minutes(soakMinutes)),
        row(w.row.above, ({ aboveLowMinutes }) => minutes(aboveLowMinutes)),
        row(w.row.peak, ({ peakC }) => temperature(peakC)),
        row(w.row.kept, ({ kept, why }) => (kept ? w.row.isKept : inUnits(why))),
      ]}
    />
  );
}

const minutesOf = (n: number): string => words.why.minute(rounded(n));
const everyMinutes = 5;

function CurveTable({ firing: { points, metals } }: { readonly firing: DrawnFiring }) {
  const w = words.why;
  const rows = points.filter(({ minute }, i) => minute % everyMinutes === 0 || i === points.length - 1);
  return (
    <Table
      caption={w.curve}
      columns={[words.minutesUnit, w.chamber, ...metals.map(({ pan }) => w.metalOf(pan))]}
      rows={rows.map(({ minute, chamberC, oneC, otherC }) => [
        minute,
        temperature(chamberC),
        temperature(oneC),
        temperature(otherC),
      ])}
    />
  );
}
