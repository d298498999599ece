/** A group of figures of one form, each with its unit, range, meaning and where to get it. */
import { FigureField, TextField } from "../parts/field.tsx";
import { inUnits } from "../parts/said.ts";
import { shopFields } from "../shell/en/shop-fields.ts";
import { words } from "../shell/words-en.ts";
import type { Edited } from "./editing.ts";
import type { FigureSpec } from "./figure-specs.ts";
import { pathText, placeOf, valueAt, withValue } from "./values.ts";
import type { Place } from "./values.ts";

interface GroupParts<T> {
  readonly heading: string;
  readonly edited: Edited<T>;
  readonly specs: readonly FigureSpec[];
  /** Before the specs' own places: of a shelf or a coat. */
  readonly within?: Place;
  /** Units that depend on the shop, by the specs' places: "EUR/kWh". */
  readonly units?: Readonly<Record<string, string>>;
}

export function FigureGroup<T>({ heading, ...parts }: GroupParts<T>) {
  return (
    <section>
      <h3>{heading}</h3>
      <Figures {...parts} />
    </section>
  );
}

export function Figures<T>({ edited, specs, within = [], units = {} }: Omit<GroupParts<T>, "heading">) {
  const { draft } = edited;
  if (draft === undefined) return null;
  return (
    <div class="fields">
      {specs.map(({ at, words: named = at, standard, optional, unit, ...spec }) => {
        const place = [...within, ...placeOf(at)];
        const { label, why, measure } = wordsOf(named);
        const value = valueAt(draft, place) ?? standard;
        return (
          <FigureField
            {...spec}
            {...unitPart(units[at] ?? unit)}
            label={label}
            value={typeof value === "number" ? value : null}
            optional={optional === true}
            why={why}
            more={measure !== undefined && <span class="fine">{inUnits(`${words.shop.measured} ${measure}`)}</span>}
            problem={problemAt(edited, place)}
            onChange={(next) => edited.change(withValue(draft, place, next ?? undefined))}
          />
        );
      })}
    </div>
  );
}

/** A text of the same form. */
interface TextParts<T> {
  readonly edited: Edited<T>;
  readonly at: Place;
  readonly optional?: boolean;
}

export function TextPart<T>({ edited, at, optional = false }: TextParts<T>) {
  const { draft } = edited;
  if (draft === undefined) return null;
  const { label, why } = wordsOf(String(at.at(-1)));
  const value = valueAt(draft, at);
  return (
    <TextField
      label={label}
      why={why}
      value={typeof value === "string" ? value : ""}
      problem={problemAt(edited, at)}
      optional={optional}
      onChange={(next) => edited.change(withValue(draft, at, optional && next.trim() === "" ? undefined : next))}
    />
  );
}

export function wordsOf(at: string) {
  return shopFields[at] ?? { label: at, why: "" };
}

export function problemAt<T>({ problems }: Edited<T>, place: Place): string | undefined {
  const path = pathText(place);
  const said = problems.find((problem) => problem.path === path)?.message;
  return said === undefined ? undefined : inUnits(said);
}

const unitPart = (unit: string | undefined) => (unit === undefined ? {} : { unit });
