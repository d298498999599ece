/** When somebody is in the shop. */
import type { DayFile } from "../../api/contract/day.ts";
import { TextField } from "../parts/field.tsx";
import { localOf } from "../parts/zone.ts";
import { words } from "../shell/words-en.ts";
import { EditForm } from "./edit-form.tsx";
import { useEdited } from "./editing.ts";
import { problemAt } from "./figures.tsx";
import { withValue } from "./values.ts";

type Staffed = DayFile["staffed"];

interface HoursParts {
  readonly timeZone: string;
  readonly turn: number;
}

export function Hours({ timeZone, turn }: HoursParts) {
  const w = words.shop;
  const edited = useEdited<Staffed>("/staffed", "value", turn);
  const { draft } = edited;
  const add = (): void => {
    const last = draft?.at(-1);
    if (draft !== undefined && last !== undefined) edited.change([...draft, { from: last.to, to: last.to }]);
  };
  return (
    <section>
      <h2>{w.hours}</h2>
      <p>{w.hoursWhy}</p>
      <EditForm name={w.hours} edited={edited}>
        {(draft ?? []).map((interval, i) => (
          <div class="fields" role="group" aria-label={w.interval(i + 1)}>
            {(["from", "to"] as const).map((end) => (
              <TextField
                label={w[end]}
                type="datetime-local"
                // Seconds and offsets are kept as they are until somebody changes the field.
                value={localOf(timeZone, interval[end])}
                problem={problemAt(edited, [i, end])}
                onChange={(next) => draft !== undefined && edited.change(withValue(draft, [i, end], next))}
              />
            ))}
            {(draft?.length ?? 0) > 1 && (
              <button
                type="button"
                class="second"
                onClick={() => draft !== undefined && edited.change(draft.toSpliced(i, 1))}
              >
                {w.dropInterval(i + 1)}
              </button>
            )}
          </div>
        ))}
        <button type="button" class="second" onClick={add}>
          {w.another}
        </button>
      </EditForm>
      <NextOpen timeZone={timeZone} turn={turn} />
    </section>
  );
}

function NextOpen({ timeZone, turn }: HoursParts) {
  const w = words.shop;
  const edited = useEdited<string | null>("/settings/nextOpen", "value", turn);
  return (
    <>
      <h2>{w.nextOpen}</h2>
      <EditForm name={w.nextOpen} edited={edited}>
        <div class="fields">
          <TextField
            label={w.nextOpen}
            type="datetime-local"
            optional
            why={w.nextOpenWhy}
            value={edited.draft ? localOf(timeZone, edited.draft) : ""}
            problem={problemAt(edited, [])}
            onChange={(next) => edited.change(next === "" ? null : next)}
          />
        </div>
      </EditForm>
    </>
  );
}
