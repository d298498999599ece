/** What the day is called, where its clock stands, from when it is planned, what money it reckons in. */
import { ChoiceField, TextField } from "../parts/field.tsx";
import { words } from "../shell/words-en.ts";
import { EditForm } from "./edit-form.tsx";
import { useEdited } from "./editing.ts";
import { problemAt } from "./figures.tsx";

interface TextSettingParts {
  readonly of: "title" | "timeZone" | "currency" | "planFrom";
  readonly turn: number;
}

function TextSetting({ of, turn }: TextSettingParts) {
  const { label, why } = words.shop.calendar[of];
  const edited = useEdited<string>(`/settings/${of}`, "value", turn);
  const value = edited.draft ?? "";
  const problem = problemAt(edited, []);
  return (
    <section>
      <h2>{label}</h2>
      <EditForm name={label} edited={edited}>
        <div class="fields">
          {of === "timeZone" ? (
            <ChoiceField
              label={label}
              why={why}
              value={value}
              options={zones(value)}
              problem={problem}
              onChange={edited.change}
            />
          ) : (
            <TextField
              label={label}
              why={why}
              type={of === "planFrom" ? "datetime-local" : "text"}
              optional={of === "title"}
              value={of === "planFrom" ? value.slice(0, 16) : value}
              problem={problem}
              onChange={edited.change}
            />
          )}
        </div>
      </EditForm>
    </section>
  );
}

/** The names that the browser knows, and the one in use. */
function zones(inUse: string): readonly (readonly [string, string])[] {
  return [...new Set([inUse, ...Intl.supportedValuesOf("timeZone"), "UTC"])].map((zone) => [zone, zone]);
}

export function CalendarForms({ turn }: { readonly turn: number }) {
  return (
    <>
      <TextSetting of="title" turn={turn} />
      <TextSetting of="planFrom" turn={turn} />
      <TextSetting of="timeZone" turn={turn} />
      <TextSetting of="currency" turn={turn} />
    </>
  );
}
