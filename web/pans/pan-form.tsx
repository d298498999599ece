/** Entry of a pan: metal and diameter suggest the rest; what is suggested can be changed. */
import { useLayoutEffect, useRef, useState } from "preact/hooks";
import type { DayFile } from "../../api/contract/day.ts";
import { ChoiceField, FigureField, TextField } from "../parts/field.tsx";
import { words } from "../shell/words-en.ts";
import { freeId, suggested } from "./draft.ts";
import type { Draft, Outline } from "./draft.ts";
import { Presets } from "./presets.tsx";

interface FormParts {
  readonly day: DayFile;
  readonly draft: Draft;
  readonly isBusy: boolean;
  readonly onDraft: (draft: Draft) => void;
  readonly onAdd: () => void;
}

const outlines: readonly Outline[] = ["round", "handle", "rectangle"];

export function PanForm({ day, draft, isBusy, onDraft, onAdd }: FormParts) {
  const w = words.pans;
  const [isVented, setVented] = useState(false);
  const form = useRef<HTMLFormElement>(null);
  useLayoutEffect(() => form.current?.querySelector("input")?.focus(), []);
  const put = (parts: Partial<Draft>): void => onDraft({ ...draft, ...parts });
  const size = (parts: Partial<Draft>): void => onDraft(suggested(day, { ...draft, ...parts }));
  const coating = day.coatings.find(({ id }) => id === draft.coating);
  return (
    <form
      class="panform"
      ref={form}
      onSubmit={(event) => {
        event.preventDefault();
        setVented(false);
        onAdd();
      }}
    >
      <h2>{w.addTitle}</h2>
      <div class="fields">
        <TextField
          label={w.ticket}
          value={draft.ticket}
          onChange={(ticket) => put({ ticket, id: freeId(day, ticket) })}
          optional
        />
        <TextField label={w.name} value={draft.id} onChange={(id) => put({ id })} why={w.nameWhy} />
        <FigureField
          label={w.pieces}
          value={draft.quantity}
          onChange={(quantity) => put({ quantity })}
          whole
          least={1}
          most={500}
        />
      </div>
      <Presets day={day} draft={draft} onSize={size} />
      <div class="fields">
        <ChoiceField
          label={w.outline}
          value={draft.outline}
          options={outlines.map((one) => [one, w.outlines[one]])}
          onChange={(one) => size({ outline: outlines.find((outline) => outline === one) ?? "round" })}
        />
        {draft.outline === "rectangle" ? (
          <>
            <FigureField
              label={w.width}
              quantity="length"
              value={draft.widthCm}
              onChange={(widthCm) => size({ widthCm })}
              least={3}
              most={150}
            />
            <FigureField
              label={w.depth}
              quantity="length"
              value={draft.depthCm}
              onChange={(depthCm) => size({ depthCm })}
              least={3}
              most={150}
            />
          </>
        ) : (
          <FigureField
            label={w.diameter}
            quantity="length"
            value={draft.rimCm}
            onChange={(rimCm) => size({ rimCm })}
            least={5}
            most={100}
          />
        )}
        {draft.outline === "handle" && (
          <FigureField
            label={w.handle}
            quantity="length"
            value={draft.handleCm}
            onChange={(handleCm) => size({ handleCm })}
            least={1}
            most={60}
            why={w.handleWhy}
          />
        )}
        <FigureField
          label={w.height}
          quantity="length"
          value={draft.heightCm}
          onChange={(heightCm) => put({ heightCm })}
          least={0.5}
          most={60}
        />
        <FigureField
          label={w.mass}
          quantity="mass"
          value={draft.massKg}
          onChange={(massKg) => put({ massKg, isWeighed: massKg !== null })}
          least={0.02}
          most={60}
          why={draft.isWeighed ? w.massWeighed : w.massSuggested}
        />
        <FigureField
          label={w.limit}
          quantity="temperature"
          value={draft.metalLimitC}
          onChange={(metalLimitC) => put({ metalLimitC })}
          optional
          least={40}
          most={1200}
          why={w.limitWhy}
        />
      </div>
      <div class="fields">
        <ChoiceField
          label={w.coating}
          value={draft.coating}
          options={day.coatings.map((one) => [one.id, one.name ?? one.id])}
          onChange={(id) => put({ coating: id, nextCoat: 1 })}
        />
        <ChoiceField
          label={w.nextCoat}
          value={String(draft.nextCoat)}
          options={(coating?.coats ?? []).map((coat, i) => [String(i + 1), coat.name ?? w.coat(i + 1)])}
          onChange={(n) => put({ nextCoat: Number(n) })}
        />
        <FigureField
          label={w.bench}
          unit={words.minutesUnit}
          value={draft.prepMinutes}
          onChange={(prepMinutes) => put({ prepMinutes })}
          whole
          least={0}
          most={1440}
          why={w.benchWhy}
        />
        <TextField
          label={w.ready}
          type="datetime-local"
          value={draft.readyAt}
          onChange={(readyAt) => put({ readyAt })}
          why={w.readyWhy}
        />
        <TextField
          label={w.promised}
          type="datetime-local"
          value={draft.promisedAt}
          onChange={(promisedAt) => put({ promisedAt })}
          optional
          why={w.promisedWhy}
        />
      </div>
      <div class="ticks">
        <label class="tick">
          <input
            type="checkbox"
            checked={draft.isRush}
            onChange={(event) => put({ isRush: event.currentTarget.checked })}
          />
          {w.rush}
        </label>
        <label class="tick">
          <input
            type="checkbox"
            required
            checked={isVented}
            onChange={(event) => setVented(event.currentTarget.checked)}
          />
          {w.vented}
        </label>
      </div>
      <p class="buttons">
        <button disabled={isBusy}>{w.add}</button>
      </p>
      <p class="fine">{w.intake}</p>
    </form>
  );
}
