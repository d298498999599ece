/** What the gas meter or the bottle's scale shows now. */
import { useState } from "preact/hooks";
import type { DayFile } from "../../api/contract/day.ts";
import { ChoiceField, FigureField } from "../parts/field.tsx";
import { ovenName } from "../parts/day-lookup.ts";
import { rounded } from "../parts/figures.ts";
import { words } from "../shell/words-en.ts";
import { keepLevel } from "./days.ts";

interface MeterParts {
  readonly day: DayFile;
  readonly onKeep: (work: () => Promise<string>) => void;
}

/** Natural gas by the cubic metre, as the day file's own default. */
const usualUnit = "m3";

export function MeterForm({ day, onKeep }: MeterParts) {
  const w = words.close;
  const [units, setUnits] = useState<number | null>(null);
  const [oven, setOven] = useState(day.ovens[0]?.id ?? "");
  const unit = (day.gas?.unit ?? usualUnit).replace(/^m3$/, "m³");
  const send = (event: SubmitEvent): void => {
    event.preventDefault();
    if (units === null) return;
    onKeep(async () => {
      await keepLevel(oven, units);
      setUnits(null);
      return w.kept(`${rounded(units, 2)} ${unit}`);
    });
  };
  return (
    <form onSubmit={send}>
      <div class="fields">
        <FigureField label={w.reading} unit={unit} least={0} value={units} why={w.readingWhy} onChange={setUnits} />
        {day.ovens.length > 1 && (
          <ChoiceField
            label={w.oven}
            value={oven}
            options={day.ovens.map(({ id }) => [id, ovenName(day, id)])}
            onChange={setOven}
          />
        )}
      </div>
      <p class="buttons">
        <button class="second">{w.keep}</button>
      </p>
    </form>
  );
}
