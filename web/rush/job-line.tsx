/** Alike pans of a job: metal, rim and number suggest the rest, which can be changed. */
import { useState } from "preact/hooks";
import type { DayFile } from "../../api/contract/day.ts";
import { ChoiceField, FigureField } from "../parts/field.tsx";
import { lengths } from "../parts/figures.ts";
import { bodiesFor, rimsCm } from "../parts/pan-presets.ts";
import { words } from "../shell/words-en.ts";
import { lineOf } from "./job.ts";
import type { JobLine } from "./job.ts";

interface LineParts {
  readonly day: DayFile;
  readonly line: JobLine;
  readonly place: number;
  readonly wrong: (field: keyof JobLine) => string | undefined;
  readonly onLine: (line: JobLine) => void;
  readonly onDrop: (() => void) | undefined;
}

type Figure = Exclude<keyof JobLine, "body">;

export function JobLineFields({ day, line, place, wrong, onLine, onDrop }: LineParts) {
  const w = words.rush;
  const [isOpen, setOpen] = useState(false);
  const bodies = bodiesFor(day.materials);
  const figure = (field: Figure) => ({
    value: line[field],
    problem: wrong(field),
    onChange: (value: number | null) => value !== null && onLine({ ...line, [field]: value }),
  });
  const rim = (rimCm: number): void => onLine(lineOf(line.body, rimCm, line.pieces));
  return (
    <div class="jobline" role="group" aria-label={w.line(place + 1)}>
      <div class="fields">
        <ChoiceField
          label={w.body}
          value={line.body.id}
          options={bodies.map(({ id }) => [id, bodyName(id)])}
          problem={wrong("body")}
          onChange={(id) => onLine(lineOf(bodies.find((one) => one.id === id) ?? line.body, line.rimCm, line.pieces))}
        />
        <FigureField
          label={w.rim}
          quantity="length"
          least={8}
          most={60}
          {...figure("rimCm")}
          onChange={(rimCm) => rimCm !== null && rim(rimCm)}
        />
        <FigureField label={w.number} whole least={1} most={50} {...figure("pieces")} />
        <FigureField label={w.mass} quantity="mass" least={0.05} most={15} {...figure("massKg")} />
      </div>
      <div class="chips" role="group" aria-label={w.usualRims}>
        {rimsCm.map((rimCm) => (
          <button type="button" class="second" aria-pressed={line.rimCm === rimCm} onClick={() => rim(rimCm)}>
            {lengths(rimCm)}
          </button>
        ))}
      </div>
      <p class="buttons">
        <button type="button" class="second" aria-expanded={isOpen} onClick={() => setOpen(!isOpen)}>
          {w.more}
        </button>
        {onDrop !== undefined && (
          <button type="button" class="second" onClick={onDrop}>
            {w.takeLineOff(place + 1)}
          </button>
        )}
      </p>
      {isOpen && (
        <div class="fields">
          <FigureField label={w.height} quantity="length" least={1} most={40} {...figure("heightCm")} />
          <FigureField
            label={w.handle}
            quantity="length"
            least={0}
            most={35}
            why={w.handleHint}
            {...figure("handleCm")}
          />
          <FigureField
            label={w.bench}
            unit={words.minutesUnit}
            whole
            least={0}
            most={600}
            why={w.benchHint}
            {...figure("benchMinutes")}
          />
        </div>
      )}
    </div>
  );
}

function bodyName(id: string): string {
  const known: Readonly<Record<string, string>> = words.rush.bodies;
  return known[id] ?? id;
}
