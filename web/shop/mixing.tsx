/** Which coats may share a firing, which never, and when the oven is burnt clean between. */
import type { DayFile } from "../../api/contract/day.ts";
import { ChoiceField } from "../parts/field.tsx";
import { words } from "../shell/words-en.ts";
import { CleanBurn } from "./clean-burn.tsx";
import { EditForm } from "./edit-form.tsx";
import { useEdited } from "./editing.ts";
import { problemAt } from "./figures.tsx";
import { groupsOf } from "./groups.ts";

export type Mixing = NonNullable<DayFile["mixing"]>;
type Rule = NonNullable<Mixing["rule"]>;

export function MixingForm({ day, turn }: { readonly day: DayFile; readonly turn: number }) {
  const w = words.shop.mixing;
  const edited = useEdited<Mixing>("/settings/mixing", "value", turn);
  const { draft } = edited;
  const groups = groupsOf(draft === undefined ? day : { ...day, mixing: draft });
  const pairs = draft?.neverTogether ?? [];
  const put = (parts: Partial<Mixing>): void => edited.change({ ...draft, ...parts });
  const at = (i: number, side: 0 | 1, group: string): void =>
    put({ neverTogether: pairs.with(i, side === 0 ? [group, pairs[i]?.[1] ?? ""] : [pairs[i]?.[0] ?? "", group]) });
  return (
    <section>
      <h2>{w.title}</h2>
      <p>{w.lead}</p>
      <EditForm name={w.title} edited={edited}>
        {draft !== undefined && (
          <>
            <div class="fields">
              <ChoiceField
                label={w.rule}
                why={w.ruleWhy}
                value={draft.rule ?? "any"}
                options={Object.entries(w.rules)}
                problem={problemAt(edited, ["rule"])}
                onChange={(rule) => put({ rule: rule as Rule })}
              />
            </div>
            <h3>{w.never}</h3>
            <p class="fine">{w.neverWhy}</p>
            {pairs.map((pair, i) => (
              <div class="fields" role="group" aria-label={w.pair(i + 1)}>
                {([0, 1] as const).map((side) => (
                  <ChoiceField
                    label={side === 0 ? w.group : w.andGroup}
                    value={pair[side]}
                    options={groups.map((group) => [group, group])}
                    problem={problemAt(edited, ["neverTogether", i])}
                    onChange={(group) => at(i, side, group)}
                  />
                ))}
                <button type="button" class="second" onClick={() => put({ neverTogether: pairs.toSpliced(i, 1) })}>
                  {w.dropPair(i + 1)}
                </button>
              </div>
            ))}
            <button
              type="button"
              class="second"
              disabled={groups.length < 2}
              onClick={() => put({ neverTogether: [...pairs, [groups[0] ?? "", groups[1] ?? ""]] })}
            >
              {w.newPair}
            </button>
            <CleanBurn edited={edited} draft={draft} groups={groups} />
          </>
        )}
      </EditForm>
    </section>
  );
}
