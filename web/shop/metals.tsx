/** The metals that pans are made of, with the heat each takes. */
import { useState } from "preact/hooks";
import type { DayFile } from "../../api/contract/day.ts";
import { TextField } from "../parts/field.tsx";
import { words } from "../shell/words-en.ts";
import { EditForm } from "./edit-form.tsx";
import { useEdited } from "./editing.ts";
import { metalFigures } from "./figure-specs.ts";
import { Figures } from "./figures.tsx";

type Metals = DayFile["materials"];

/** Of steel: a figure to begin with, between aluminium and copper. J/kgK. */
const usualHeat = 490;

export function MetalsForm({ turn }: { readonly turn: number }) {
  const w = words.shop.metals;
  const edited = useEdited<Metals>("/settings/materials", "value", turn);
  const [name, setName] = useState("");
  const { draft } = edited;
  const add = (): void => {
    if (draft === undefined || name.trim() === "" || Object.hasOwn(draft, name.trim())) return;
    edited.change({ ...draft, [name.trim()]: { specificHeatJPerKgK: usualHeat } });
    setName("");
  };
  const drop = (metal: string): void => {
    if (draft === undefined) return;
    edited.change(Object.fromEntries(Object.entries(draft).filter(([one]) => one !== metal)));
  };
  return (
    <section>
      <h2>{w.title}</h2>
      <p>{w.lead}</p>
      <EditForm name={w.title} edited={edited}>
        {Object.keys(draft ?? {}).map((metal) => (
          <fieldset class="question" key={metal}>
            <legend>{metal}</legend>
            <Figures edited={edited} specs={metalFigures} within={[metal]} />
            {Object.keys(draft ?? {}).length > 1 && (
              <button type="button" class="second" onClick={() => drop(metal)}>
                {w.drop(metal)}
              </button>
            )}
          </fieldset>
        ))}
        <div class="fields">
          <TextField label={w.name} why={w.nameWhy} optional value={name} onChange={setName} />
          <button type="button" class="second" disabled={name.trim() === ""} onClick={add}>
            {w.add}
          </button>
        </div>
      </EditForm>
    </section>
  );
}
