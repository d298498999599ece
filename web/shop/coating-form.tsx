/** One coat system: its coats, their windows drawn on one temperature line. */
import type { DayFile } from "../../api/contract/day.ts";
import { words } from "../shell/words-en.ts";
import { Coats } from "./coats.tsx";
import { EditForm } from "./edit-form.tsx";
import { useEdited } from "./editing.ts";
import { TextPart } from "./figures.tsx";
import { TakeAway } from "./take-away.tsx";
import { WindowsLine } from "./windows-line.tsx";

export type CoatingFile = DayFile["coatings"][number];

interface CoatingParts {
  readonly id: string;
  readonly day: DayFile;
  readonly turn: number;
}

export function CoatingForm({ id, day, turn }: CoatingParts) {
  const w = words.shop;
  const path = `/coatings/${encodeURIComponent(id)}`;
  const edited = useEdited<CoatingFile>(path, "coating", turn);
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
            <Coats edited={edited} draft={draft} ovens={day.ovens} />
          </>
        )}
      </EditForm>
      {draft !== undefined && edited.version !== undefined && !edited.isChanged && (
        <TakeAway name={draft.name ?? id} path={path} version={edited.version} />
      )}
    </>
  );
}
