/** A reading in two taps: what was measured, then what it showed. And the readings of this load so far. */
import { useEffect, useState } from "preact/hooks";
import { clockAt, millisOf } from "../parts/clock.ts";
import { pieceName } from "../parts/day-lookup.ts";
import { bare, temperature } from "../parts/figures.ts";
import { FigureField } from "../parts/field.tsx";
import { unitOf } from "../parts/units.ts";
import { addReading, readReadings } from "../shell/day-service.ts";
import type { Reading, ReadingKept } from "../shell/day-service.ts";
import { attempt } from "../shell/live.ts";
import type { Live } from "../shell/live.ts";
import { words } from "../shell/words-en.ts";
import { checkPoints } from "./check-points.ts";
import type { CheckPoint } from "./check-points.ts";
import type { SheetPart } from "./load-sheet.tsx";

interface ReadingsParts extends SheetPart {
  readonly live: Live;
  readonly now: number;
}

/** What can be measured: the pan of a check, or the chamber. */
interface Aim {
  readonly name: string;
  readonly point: CheckPoint | null;
  readonly expectedC: number;
}

export function Readings({ planned, one: { load }, live, now }: ReadingsParts) {
  const [aim, setAim] = useState<string | null>(null);
  const [kept, setKept] = useState<readonly ReadingKept[]>([]);
  const [said, setSaid] = useState("");
  useEffect(() => void attempt(async () => setKept(await readReadings(load.oven))), [load.oven, live.turn]);
  const aims = aimsOf({ planned, load, now });
  const chosen = aims.find(({ name }) => name === aim);
  const keep = (c: number): void => {
    if (chosen === undefined) return;
    const { point } = chosen;
    const measured: Reading =
      point === null ? { oven: load.oven, chamberC: c } : { oven: load.oven, pan: point.pan.id, metalC: c };
    void attempt(async () => {
      const added = await addReading({ ...measured, load: load.id });
      setKept((before) => [...before, added]);
      setSaid(verdict(point, c));
      setAim(null);
    });
  };
  return (
    <section class="screen-only readings">
      <h2>{words.sheet.readings}</h2>
      <p>{words.sheet.readingHint}</p>
      <div class="buttons" role="group" aria-label={words.sheet.measured}>
        {aims.map(({ name }) => (
          <button class="second" aria-pressed={name === aim} onClick={() => setAim(name === aim ? null : name)}>
            {name}
          </button>
        ))}
      </div>
      {chosen !== undefined && <Values expectedC={chosen.expectedC} onValue={keep} />}
      <p role="status">{said}</p>
      <ul class="plain">
        {kept
          .filter(({ reading }) => reading.load === load.id)
          .map(({ at, reading }) => (
            <li>
              {clockAt(planned.day.timeZone, millisOf(at))} {reading.pan ?? words.sheet.line.chamberC}{" "}
              <strong>{temperature(reading.metalC ?? reading.chamberC ?? 0)}</strong>
            </li>
          ))}
      </ul>
    </section>
  );
}

function aimsOf({
  planned,
  load,
  now,
}: {
  planned: SheetPart["planned"];
  load: SheetPart["one"]["load"];
  now: number;
}): Aim[] {
  const minute = Math.round((now - millisOf(load.doorClosesAt)) / 60_000);
  const here = load.curve.find((one) => one.minute === minute);
  const pans = checkPoints(planned, load).map((point) => ({
    name: `${pieceName(planned.day, point.pan)}, ${words.sheet.aim[point.what]}`,
    point,
    expectedC: point.expectedC,
  }));
  const chamberC = here?.chamberC ?? load.setPointC ?? load.curve.at(-1)?.chamberC;
  return chamberC === undefined
    ? pans
    : [...pans, { name: words.sheet.line.chamberC, point: null, expectedC: chamberC }];
}

const around = [-25, -20, -15, -10, -5, 0, 5, 10, 15, 20] as const;

/** Values around the expected one to tap, in steps of five degrees of the unit shown; another by hand. */
function Values({ expectedC, onValue }: { readonly expectedC: number; readonly onValue: (c: number) => void }) {
  const [other, setOther] = useState<number | null>(null);
  const unit = unitOf("temperature");
  const middle = Math.round(unit.toShown(expectedC) / 5) * 5;
  return (
    <div class="values">
      <div class="buttons" role="group" aria-label={words.sheet.showed}>
        {around.map((step) => {
          const c = unit.toStored(middle + step);
          return <button onClick={() => onValue(c)}>{bare("temperature", c)}</button>;
        })}
      </div>
      <form
        class="other"
        onSubmit={(event) => {
          event.preventDefault();
          if (other !== null) onValue(other);
        }}
      >
        <FigureField
          label={words.sheet.other}
          quantity="temperature"
          value={other}
          onChange={setOther}
          least={0}
          most={700}
        />
        <button>{words.sheet.keep}</button>
      </form>
    </div>
  );
}

function verdict(point: CheckPoint | null, c: number): string {
  if (point === null) return words.sheet.kept(temperature(c));
  if (c < point.leastC) return words.sheet.tooCold(temperature(c), temperature(point.leastC));
  return c > point.mostC
    ? words.sheet.tooHot(temperature(c), temperature(point.mostC))
    : words.sheet.right(temperature(c));
}
