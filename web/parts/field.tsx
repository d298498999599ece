/** Fields of forms: a label, the unit, the allowed range and why it matters, and what is wrong with what stands there. */
import { useEffect, useId, useRef, useState } from "preact/hooks";
import type { ComponentChildren } from "preact";
import { words } from "../shell/words-en.ts";
import { unitOf } from "./units.ts";
import type { Quantity, Unit } from "./units.ts";

interface FrameParts {
  readonly label: string;
  /** Behind the label, as "cm". */
  readonly unit?: string | undefined;
  /** Below the field: the range, and why it matters or where it is measured. */
  readonly hints?: readonly (string | undefined)[];
  /** Below the hints, as a way to measure it. */
  readonly more?: ComponentChildren;
  /** What is wrong with what stands there, as the service or the field itself says. */
  readonly problem?: string | null | undefined;
  readonly children: (ids: { readonly id: string; readonly describedBy: string }) => ComponentChildren;
}

function Frame({ label, unit, hints = [], more, problem, children }: FrameParts) {
  const id = useId();
  const said = hints.filter((hint) => hint !== undefined && hint !== "");
  return (
    <div class="field">
      <label for={id}>
        {label}
        {unit !== undefined && unit !== "" && <span class="fine">, {unit}</span>}
      </label>
      {children({ id, describedBy: `${id}-wrong ${id}-hints` })}
      <span class="wrong" id={`${id}-wrong`}>
        {problem}
      </span>
      <span class="fine" id={`${id}-hints`}>
        {said.join(" ")}
      </span>
      {more}
    </div>
  );
}

interface FigureFieldParts {
  readonly label: string;
  /** Stored value; null: the field is empty. */
  readonly value: number | null;
  /** Null: emptied. Not called while what stands there is no number within the range. */
  readonly onChange: (value: number | null) => void;
  /** Shown in the chosen unit, stored in the metric one. */
  readonly quantity?: Quantity;
  /** Where the unit is not one that can be switched, as "min" or "kW". */
  readonly unit?: string;
  /** Allowed range, as stored. */
  readonly least?: number;
  readonly most?: number;
  readonly whole?: boolean;
  /** What such a figure usually is, as stored; outside of it the field only asks to check. */
  readonly usual?: readonly [least: number, most: number];
  readonly optional?: boolean;
  readonly why?: string;
  readonly more?: ComponentChildren;
  readonly problem?: string | undefined;
}

/** A number. An untouched value stays as it is stored, whatever unit it is shown in; a decimal comma is as good as a point. */
export function FigureField(parts: FigureFieldParts) {
  const { label, value, onChange, why, optional = false } = parts;
  const unit = shownUnit(parts);
  const [typed, setTyped] = useState<string | null>(null);
  const input = useRef<HTMLInputElement>(null);
  const text = typed ?? textOf(value, unit);
  const wrong = wrongWith(text, parts, unit);
  useEffect(() => setTyped(null), [value, unit.unit]);
  useEffect(() => input.current?.setCustomValidity(wrong ?? ""));
  const type = (next: string): void => {
    setTyped(next);
    if (wrongWith(next, parts, unit) !== null) return;
    const shown = numberOf(next);
    onChange(shown === null ? null : unit.toStored(shown));
  };
  return (
    <Frame
      label={label}
      unit={unit.unit}
      hints={[rangeOf(parts, unit), usualOf(parts, unit), why]}
      more={parts.more}
      problem={(typed === null || text === "" ? null : wrong) ?? parts.problem ?? unusual(parts)}
    >
      {({ id, describedBy }) => (
        <input
          id={id}
          ref={input}
          type="text"
          inputMode={parts.whole ? "numeric" : "decimal"}
          autocomplete="off"
          required={!optional}
          value={text}
          aria-describedby={describedBy}
          aria-invalid={parts.problem !== undefined || (typed !== null && wrong !== null && text !== "")}
          onInput={(event) => type(event.currentTarget.value)}
          onBlur={() => wrong === null && setTyped(null)}
        />
      )}
    </Frame>
  );
}

const asIs = (n: number): number => n;
/** A figure without a switchable unit keeps the digits it is stored with. */
const mostDigits = 6;

function shownUnit({ quantity, unit = "" }: FigureFieldParts): Unit {
  return quantity === undefined ? { unit, digits: mostDigits, toShown: asIs, toStored: asIs } : unitOf(quantity);
}

function textOf(value: number | null, unit: Unit): string {
  return value === null ? "" : String(Number(unit.toShown(value).toFixed(Math.max(unit.digits, 2))));
}

/** Null: nothing there. NaN: no number. */
function numberOf(text: string): number | null {
  return text.trim() === "" ? null : Number(text.trim().replace(",", "."));
}

function wrongWith(text: string, parts: FigureFieldParts, unit: Unit): string | null {
  const shown = numberOf(text);
  if (shown === null) return parts.optional === true ? null : words.field.needed;
  if (!Number.isFinite(shown)) return words.field.noNumber;
  if (parts.whole === true && !Number.isInteger(shown)) return words.field.whole;
  const stored = unit.toStored(shown);
  const { least = -Infinity, most = Infinity } = parts;
  return stored < least - 1e-9 || stored > most + 1e-9 ? (rangeOf(parts, unit) ?? words.field.noNumber) : null;
}

function rangeOf({ least, most }: FigureFieldParts, unit: Unit): string | undefined {
  const said = (stored: number): string => String(Number(rounded2(unit.toShown(stored))));
  if (least !== undefined && most !== undefined) return words.field.range(said(least), said(most));
  if (least !== undefined) return words.field.atLeast(said(least));
  return most === undefined ? undefined : words.field.atMost(said(most));
}

function usualOf({ usual }: FigureFieldParts, unit: Unit): string | undefined {
  if (usual === undefined) return undefined;
  const [least, most] = usual.map((stored) => String(Number(rounded2(unit.toShown(stored)))));
  return words.field.usual(least ?? "", most ?? "");
}

function unusual({ usual, value }: FigureFieldParts): string | null {
  if (usual === undefined || value === null) return null;
  return value < usual[0] || value > usual[1] ? words.field.unusual : null;
}

const rounded2 = (n: number): string => n.toFixed(2);

interface TextFieldParts {
  readonly label: string;
  readonly value: string;
  readonly onChange: (value: string) => void;
  readonly type?: "text" | "datetime-local" | "time" | "date";
  readonly optional?: boolean;
  readonly why?: string;
  readonly problem?: string | undefined;
}

export function TextField({ label, value, onChange, type = "text", optional = false, why, problem }: TextFieldParts) {
  return (
    <Frame label={label} hints={[why]} problem={problem}>
      {({ id, describedBy }) => (
        <input
          id={id}
          type={type}
          value={value}
          required={!optional}
          autocomplete="off"
          aria-describedby={describedBy}
          aria-invalid={problem !== undefined}
          onInput={(event) => onChange(event.currentTarget.value)}
        />
      )}
    </Frame>
  );
}

interface ChoiceFieldParts {
  readonly label: string;
  readonly value: string;
  readonly options: readonly (readonly [value: string, said: string])[];
  readonly onChange: (value: string) => void;
  readonly why?: string;
  readonly problem?: string | undefined;
}

export function ChoiceField({ label, value, options, onChange, why, problem }: ChoiceFieldParts) {
  return (
    <Frame label={label} hints={[why]} problem={problem}>
      {({ id, describedBy }) => (
        <select
          id={id}
          value={value}
          aria-describedby={describedBy}
          onChange={(event) => onChange(event.currentTarget.value)}
        >
          {options.map(([one, said]) => (
            <option value={one}>{said}</option>
          ))}
        </select>
      )}
    </Frame>
  );
}
