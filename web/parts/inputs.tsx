/** Labelled inputs: the unit beside the label, a hint and a problem tied to the field, so that a screen reader tells them. */
import type { ComponentChildren } from "preact";
import { useId, useState } from "preact/hooks";
import { unitOf } from "./units.ts";
import type { Quantity } from "./units.ts";

interface Told {
  readonly label: string;
  readonly hint?: ComponentChildren;
  /** What is wrong with this field; undefined or empty: nothing. */
  readonly problem?: string | undefined;
}

interface FieldParts extends Told {
  readonly id: string;
  readonly unit?: string | undefined;
  readonly children: ComponentChildren;
}

function Field({ id, label, unit, hint, problem, children }: FieldParts) {
  return (
    <div class={problem ? "field wrong" : "field"}>
      <label for={id}>
        {label}
        {unit && <span class="unit">, {unit}</span>}
      </label>
      {children}
      {hint && (
        <div class="hint" id={`${id}-hint`}>
          {hint}
        </div>
      )}
      {problem && (
        <p class="problem" id={`${id}-problem`}>
          {problem}
        </p>
      )}
    </div>
  );
}

function described({ hint, problem }: Told, id: string): object {
  const by = [problem && `${id}-problem`, hint && `${id}-hint`].filter(Boolean).join(" ");
  return { ...(by === "" ? {} : { "aria-describedby": by }), ...(problem ? { "aria-invalid": true } : {}) };
}

interface TextParts extends Told {
  readonly value: string;
  readonly onValue: (value: string) => void;
  readonly type?: "text" | "datetime-local";
  readonly required?: boolean;
}

export function TextField(parts: TextParts) {
  const id = useId();
  const { value, onValue, type = "text", required } = parts;
  return (
    <Field {...parts} id={id}>
      <input
        id={id}
        type={type}
        value={value}
        required={required}
        autocomplete="off"
        onInput={(event) => onValue(event.currentTarget.value)}
        {...described(parts, id)}
      />
    </Field>
  );
}

interface ChoiceParts extends Told {
  readonly value: string;
  readonly options: readonly (readonly [value: string, said: string])[];
  readonly onValue: (value: string) => void;
}

export function ChoiceField(parts: ChoiceParts) {
  const id = useId();
  return (
    <Field {...parts} id={id}>
      <select
        id={id}
        value={parts.value}
        onChange={(event) => parts.onValue(event.currentTarget.value)}
        {...described(parts, id)}
      >
        {parts.options.map(([value, said]) => (
          <option value={value}>{said}</option>
        ))}
      </select>
    </Field>
  );
}

interface NumberParts extends Told {
  /** As stored; null: empty; NaN: what was typed is no number. */
  readonly value: number | null;
  readonly onValue: (value: number | null) => void;
  /** Shown and typed in the chosen unit, stored in the day's own. */
  readonly quantity?: Quantity | undefined;
  /** Where no choice of units applies. */
  readonly unit?: string | undefined;
  readonly required?: boolean;
}

/** Takes a decimal comma too. What nobody touches keeps its stored value to the last digit, whatever unit shows it. */
export function NumberField(parts: NumberParts) {
  const id = useId();
  const { value, onValue, quantity, required } = parts;
  const shownIn = quantity === undefined ? undefined : unitOf(quantity);
  const unit = shownIn?.unit ?? parts.unit;
  const [typed, setTyped] = useState<{
    readonly text: string;
    readonly value: number | null;
    readonly unit?: string;
  }>();
  const isTyped = typed !== undefined && Object.is(typed.value, value) && typed.unit === unit;
  const text = isTyped
    ? typed.text
    : value === null || Number.isNaN(value)
      ? ""
      : numberText(shownIn?.toShown(value) ?? value);
  const take = (now: string): void => {
    const read = readNumber(now);
    const stored = read === null || shownIn === undefined ? read : shownIn.toStored(read);
    setTyped({ text: now, value: stored, ...(unit === undefined ? {} : { unit }) });
    onValue(stored);
  };
  return (
    <Field {...parts} id={id} unit={unit}>
      <input
        id={id}
        type="text"
        inputMode="decimal"
        autocomplete="off"
        value={text}
        required={required}
        onInput={(event) => take(event.currentTarget.value)}
        {...described(parts, id)}
      />
    </Field>
  );
}

/** Null: nothing stands there. NaN: no number. */
export function readNumber(text: string): number | null {
  const plain = text.trim().replace(/^−/, "-").replace(",", ".");
  if (plain === "") return null;
  return /^[+-]?(\d+\.?\d*|\.\d+)$/.test(plain) ? Number(plain) : Number.NaN;
}

/** As the browser's language writes it, without noise in the last digits and without grouping. */
export function numberText(value: number): string {
  return new Intl.NumberFormat(navigator.language, { maximumFractionDigits: 4, useGrouping: false }).format(value);
}
