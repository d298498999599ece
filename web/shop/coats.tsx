/** The coats of a coating, first to last: window, spraying, what they may share. Another begins like the last. */
import type { DayFile } from "../../api/contract/day.ts";
import { words } from "../shell/words-en.ts";
import type { CoatingFile } from "./coating-form.tsx";
import type { Edited } from "./editing.ts";
import { coatFigures, windowFigures } from "./figure-specs.ts";
import { Figures, TextPart, problemAt, wordsOf } from "./figures.tsx";
import { TickList } from "./ticks.tsx";
import { withValue } from "./values.ts";

interface CoatsParts {
  readonly edited: Edited<CoatingFile>;
  readonly draft: CoatingFile;
  readonly ovens: DayFile["ovens"];
}

export function Coats({ edited, draft, ovens }: CoatsParts) {
  const w = words.shop;
  const { coats } = draft;
  const put = (next: CoatingFile["coats"]): void => edited.change({ ...draft, coats: next });
  const add = (): void => {
    const last = coats.at(-1);
    if (last !== undefined) put([...coats, { ...last, name: w.coatName(coats.length + 1) }]);
  };
  return (
    <>
      {coats.map((coat, i) => (
        <fieldset class="question" key={i}>
          <legend>{w.coatHeading(i + 1, coat.name ?? "")}</legend>
          <div class="fields">
            <TextPart edited={edited} at={["coats", i, "name"]} optional />
          </div>
          <h3>{w.group.window}</h3>
          <Figures edited={edited} specs={windowFigures} within={["coats", i]} />
          <h3>{w.group.spraying}</h3>
          <Figures edited={edited} specs={coatFigures} within={["coats", i]} />
          <h3>{w.group.sharing}</h3>
          <div class="fields">
            <TextPart edited={edited} at={["coats", i, "mixGroup"]} />
            <TextPart edited={edited} at={["coats", i, "paint"]} optional />
          </div>
          {ovens.length > 1 && (
            <TickList
              label={wordsOf("ovens").label}
              why={wordsOf("ovens").why}
              options={ovens.map(({ id, name }) => [id, name ?? id])}
              chosen={coat.ovens ?? []}
              problem={problemAt(edited, ["coats", i, "ovens"])}
              onChange={(chosen) =>
                edited.change(withValue(draft, ["coats", i, "ovens"], chosen.length === 0 ? null : chosen))
              }
            />
          )}
          {coats.length > 1 && (
            <p class="buttons">
              <button type="button" class="second" onClick={() => put(coats.toSpliced(i, 1))}>
                {w.dropCoat(i + 1)}
              </button>
            </p>
          )}
        </fieldset>
      ))}
      <button type="button" class="second" onClick={add}>
        {w.newCoat}
      </button>
    </>
  );
}
