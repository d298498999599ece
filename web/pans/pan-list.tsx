/** The list of pans, filtered by next coat, each with the button that says what happened to it. */
import { useState } from "preact/hooks";
import type { DayFile } from "../../api/contract/day.ts";
import { clockOf, dayAndClock } from "../parts/clock.ts";
import type { PanFile } from "../parts/day-lookup.ts";
import { ChoiceField } from "../parts/field.tsx";
import { length, lengths, mass } from "../parts/figures.ts";
import { Table } from "../parts/table.tsx";
import { words } from "../shell/words-en.ts";
import { coatKey, coatSaid } from "./pan-rows.ts";
import type { PanRow } from "./pan-rows.ts";

interface ListParts {
  readonly day: DayFile;
  readonly rows: readonly PanRow[];
  readonly chosen: string | null;
  readonly onChoose: (id: string) => void;
}

const every = "every";

export function PanList({ day, rows, chosen, onChoose }: ListParts) {
  const [coat, setCoat] = useState(every);
  const c = words.columns;
  const w = words.pans;
  const known = new Map(rows.map((row) => [coatKey(row), coatSaid(day, row.pan.coating, row.nextCoat)]));
  const shown = coat === every || !known.has(coat) ? rows : rows.filter((row) => coatKey(row) === coat);
  return (
    <section>
      <h2>{w.listTitle}</h2>
      <div class="fields">
        <ChoiceField label={w.filter} value={coat} options={[[every, w.everyCoat], ...known]} onChange={setCoat} />
      </div>
      <p role="status" class="listcount">
        {w.count(shown.length, rows.length)}
      </p>
      {rows.length === 0 ? (
        <p>{w.none}</p>
      ) : (
        <Table
          caption={w.listTitle}
          columns={[c.pan, c.ticket, w.pieces, c.size, c.mass, w.nextCoat, c.promised, c.state, w.happened]}
          rows={shown.map((row) => [
            row.pan.id,
            <>
              {row.pan.ticket ?? row.pan.id}
              {row.pan.priority === "rush" && <strong class="wrong"> {w.rushShort}</strong>}
            </>,
            row.pan.quantity ?? 1,
            sizeOf(row.pan),
            mass(row.pan.massKg),
            coatSaid(day, row.pan.coating, row.nextCoat),
            row.pan.promisedAt && dayAndClock(day.timeZone, row.pan.promisedAt),
            stateOf(row),
            <button class="second" aria-expanded={chosen === row.pan.id} onClick={() => onChoose(row.pan.id)}>
              {w.change}
              <span class="aloud"> {row.pan.id}</span>
            </button>,
          ])}
        />
      )}
    </section>
  );
}

export function sizeOf({ shape }: PanFile): string {
  if (shape.kind === "disc") return `Ø ${length(shape.diameterCm)}`;
  return shape.kind === "rectangle" ? lengths(shape.widthCm, shape.depthCm) : `${shape.dm2} dm²`;
}

function stateOf({ state, note, inside, next }: PanRow): string {
  const known: Readonly<Record<string, string>> = words.pans.states;
  const said =
    inside !== null
      ? words.pans.inOven(inside.id)
      : next !== null
        ? words.pans.planned(next.id, clockOf(next.load.doorOpensAt))
        : (known[state] ?? state);
  return note === "" ? said : `${said}: ${note}`;
}
