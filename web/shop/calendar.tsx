/** What the day is called, where its clock stands, from when it is planned, what money it reckons in. */
import { ChoiceField, TextField } from "../parts/field.tsx";
import { localOf } from "../parts/zone.ts";
import { words } from "../shell/words-en.ts";
import { EditForm } from "./edit-form.tsx";
import { useEdited } from "./editing.ts";
import { problemAt } from "./figures.tsx";

interface TextSettingParts {
  readonly of: "title" | "timeZone" | "currency" | "planFrom";
  readonly timeZone: string;
  readonly turn: number;
}

function TextSetting({ of, timeZone, turn }: TextSettingParts) {
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
              value={of === "planFrom" ? localOf(timeZone, value) : value}
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

export function CalendarForms({ timeZone, turn }: Omit<TextSettingParts, "of">) {
  return (
    <>
      <TextSetting of="title" timeZone={timeZone} turn={turn} />
      <TextSetting of="planFrom" timeZone={timeZone} turn={turn} />
      <TextSetting of="timeZone" timeZone={timeZone} turn={turn} />
      <TextSetting of="currency" timeZone={timeZone} turn={turn} />
    </>
  );
}
