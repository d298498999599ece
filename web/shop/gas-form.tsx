/** The gas: what it is, what it is counted in, how much heat a unit holds, what a bottle can still give. */
import type { DayFile } from "../../api/contract/day.ts";
import { ChoiceField } from "../parts/field.tsx";
import { words } from "../shell/words-en.ts";
import { EditForm } from "./edit-form.tsx";
import { useEdited } from "./editing.ts";
import { gasFigures } from "./figure-specs.ts";
import { Figures, problemAt } from "./figures.tsx";

type Gas = NonNullable<DayFile["gas"]>;

export function GasForm({ turn }: { readonly turn: number }) {
  const w = words.shop;
  const g = w.gas;
  const edited = useEdited<Gas>("/settings/gas", "value", turn);
  const { draft } = edited;
  const unit = (draft?.unit ?? "m3").replace(/^m3$/, "m³");
  return (
    <section>
      <h2>{w.group.gas}</h2>
      <EditForm name={w.group.gas} edited={edited}>
        {draft !== undefined && (
          <div class="fields">
            <ChoiceField
              label={g.kind}
              why={g.kindWhy}
              value={draft.kind}
              options={withOwn(draft.kind, Object.entries(g.kinds))}
              problem={problemAt(edited, ["kind"])}
              onChange={(kind) => edited.change({ ...draft, kind })}
            />
            <ChoiceField
              label={g.unit}
              why={g.unitWhy}
              value={draft.unit}
              options={withOwn(draft.unit, Object.entries(g.units))}
              problem={problemAt(edited, ["unit"])}
              onChange={(next) => edited.change({ ...draft, unit: next })}
            />
          </div>
        )}
        <Figures
          edited={edited}
          specs={gasFigures}
          units={{ grossKWhPerUnit: `kWh/${unit}`, kgCO2ePerKWh: "kg/kWh", unitsLeft: unit }}
        />
      </EditForm>
    </section>
  );
}

/** A shop's own word for it stays. */
function withOwn(own: string, known: readonly (readonly [string, string])[]): readonly (readonly [string, string])[] {
  return known.some(([value]) => value === own) ? known : [[own, own], ...known];
}
