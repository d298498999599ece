/** One coat system: each coat's spraying, waiting and metal window, the windows drawn on one temperature line. */
import type { DayFile } from "../../api/contract/day.ts";
import { words } from "../shell/words-en.ts";
import { EditForm } from "./edit-form.tsx";
import { useEdited } from "./editing.ts";
import { coatFigures, windowFigures } from "./figure-specs.ts";
import { Figures, TextPart } from "./figures.tsx";
import { WindowsLine } from "./windows-line.tsx";

export type CoatingFile = DayFile["coatings"][number];

export function CoatingForm({ id, turn }: { readonly id: string; readonly turn: number }) {
  const w = words.shop;
  const edited = useEdited<CoatingFile>(`/coatings/${encodeURIComponent(id)}`, "coating", turn);
  const { draft } = edited;
  return (
    <>
      <h2>{draft?.name ?? id}</h2>
      <p>{w.dataSheet}</p>
      <EditForm name={draft?.name ?? id} edited={edited}>
        {draft !== undefined && (
          <>
            <WindowsLine coatings={[draft]} />
            <div class="fields">
              <TextPart edited={edited} at={["name"]} />
            </div>
            {draft.coats.map((coat, i) => (
              <fieldset class="question">
                <legend>{w.coatHeading(i + 1, coat.name ?? "")}</legend>
                <h3>{w.group.window}</h3>
                <Figures edited={edited} specs={windowFigures} within={["coats", i]} />
                <h3>{w.group.spraying}</h3>
                <div class="fields">
                  <TextPart edited={edited} at={["coats", i, "mixGroup"]} />
                </div>
                <Figures edited={edited} specs={coatFigures} within={["coats", i]} />
              </fieldset>
            ))}
          </>
        )}
      </EditForm>
    </>
  );
}
