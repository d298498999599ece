/** One oven: burner, door, control, shelves, and figures proposed from its readings. */
import type { DayFile } from "../../api/contract/day.ts";
import { words } from "../shell/words-en.ts";
import { Calibration } from "./calibration.tsx";
import { EditForm } from "./edit-form.tsx";
import { useEdited } from "./editing.ts";
import type { Edited } from "./editing.ts";
import {
  areaFigure,
  burnerFigures,
  controlFigures,
  doorFigures,
  fixedFigures,
  gapFigure,
  limitFigures,
} from "./figure-specs.ts";
import { FigureGroup, TextPart, problemAt, wordsOf } from "./figures.tsx";
import { groupsOf } from "./groups.ts";
import { Shelves } from "./shelves.tsx";
import { TakeAway } from "./take-away.tsx";
import { TickList } from "./ticks.tsx";
import { withValue } from "./values.ts";

export type OvenFile = DayFile["ovens"][number];

interface OvenParts {
  readonly id: string;
  readonly day: DayFile;
  readonly turn: number;
}

export function OvenForm({ id, day, turn }: OvenParts) {
  const w = words.shop;
  const groups = groupsOf(day);
  const path = `/ovens/${encodeURIComponent(id)}`;
  const edited = useEdited<OvenFile>(path, "oven", turn);
  const { draft } = edited;
  return (
    <>
      <h2>{w.figuresOf(draft?.name ?? id)}</h2>
      <EditForm name={w.figuresOf(id)} edited={edited}>
        {draft !== undefined && (
          <>
            <div class="fields">
              <TextPart edited={edited} at={["name"]} />
            </div>
            {draft.cycle.kind === "thermal" ? (
              <>
                <FigureGroup heading={w.group.burner} edited={edited} specs={burnerFigures} />
                <FigureGroup heading={w.group.door} edited={edited} specs={doorFigures} />
                <FigureGroup heading={w.group.control} edited={edited} specs={controlFigures} />
              </>
            ) : (
              <FigureGroup heading={w.group.fixed} edited={edited} specs={fixedFigures} />
            )}
            <FigureGroup
              heading={w.group.limits}
              edited={edited}
              specs={[...limitFigures, draft.space.kind === "shelves" ? gapFigure : areaFigure]}
            />
            <Attended edited={edited} draft={draft} />
            {groups.length > 0 && (
              <TickList
                label={wordsOf("lastGroups").label}
                why={wordsOf("lastGroups").why}
                options={groups.map((group) => [group, group])}
                chosen={draft.lastGroups ?? []}
                problem={problemAt(edited, ["lastGroups"])}
                onChange={(lastGroups) => edited.change({ ...draft, lastGroups: [...lastGroups] })}
              />
            )}
            {draft.space.kind === "shelves" && <Shelves edited={edited} shelves={draft.space.shelves} />}
          </>
        )}
      </EditForm>
      {draft?.cycle.kind === "thermal" && (
        <Calibration
          oven={draft}
          onUse={(next) => {
            edited.change(next);
            toSave();
          }}
        />
      )}
      {draft !== undefined && edited.version !== undefined && !edited.isChanged && (
        <TakeAway name={draft.name ?? id} path={path} version={edited.version} />
      )}
    </>
  );
}

/** What was put into the form far below is saved above: once the button can be pressed. */
function toSave(): void {
  requestAnimationFrame(() => document.querySelector<HTMLButtonElement>(".savebar button")?.focus());
}

interface AttendedParts {
  readonly edited: Edited<OvenFile>;
  readonly draft: OvenFile;
}

function Attended({ edited, draft }: AttendedParts) {
  const isAttended = draft.attended ?? true;
  return (
    <>
      <label class="tick">
        <input
          type="checkbox"
          checked={isAttended}
          onChange={() => edited.change(withValue(draft, ["attended"], !isAttended))}
        />
        {words.shop.attended}
      </label>
      <p class="fine">{words.shop.attendedWhy}</p>
    </>
  );
}
