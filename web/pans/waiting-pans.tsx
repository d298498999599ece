/** The pans that wait, a short form for one more, and the buttons that plan. */
import { useEffect, useState } from "preact/hooks";
import type { DayFile } from "../../api/contract/day.ts";
import { length, lengths, mass } from "../parts/figures.ts";
import { addPan, fieldText, readDay, readPans, saidOf } from "../shell/service.ts";
import type { WaitingPan } from "../shell/service.ts";
import { attempt, plan } from "../shell/live.ts";
import { Table } from "../parts/table.tsx";
import { words } from "../shell/words-en.ts";

export function WaitingPans() {
  const [day, setDay] = useState<DayFile | null>(null);
  const [pans, setPans] = useState<readonly { pan: WaitingPan; state: string }[]>([]);
  const [said, setSaid] = useState("");
  const read = (): void => {
    void attempt(async () => {
      const [now, list] = await Promise.all([readDay(), readPans()]);
      setDay(now);
      setPans(list.pans);
    });
  };
  useEffect(read, []);
  const add = (pan: WaitingPan): void => {
    addPan(pan).then(
      () => {
        setSaid(words.added(pan.id));
        read();
      },
      (trouble: unknown) => setSaid(saidOf(trouble)),
    );
  };
  const c = words.columns;
  return (
    <>
      <h1>{words.waiting}</h1>
      <p class="buttons">
        <button onClick={() => planAndShow("day")}>{words.planNow}</button>
        <button onClick={() => planAndShow("now")}>{words.planLeft}</button>
      </p>
      <p role="status">{said}</p>
      {day !== null && <AddForm day={day} onAdd={add} />}
      {pans.length === 0 ? (
        <p>{words.noneWaiting}</p>
      ) : (
        <Table
          caption={words.waiting}
          columns={[c.pan, c.ticket, words.quantity, c.size, c.mass, c.coating, c.promised, c.state]}
          rows={pans.map(({ pan, state }) => [
            pan.id,
            pan.ticket ?? pan.id,
            pan.quantity ?? 1,
            sizeOf(pan),
            mass(pan.massKg),
            pan.coating,
            pan.promisedAt?.replace("T", " ").slice(0, 16),
            state,
          ])}
        />
      )}
    </>
  );
}

function planAndShow(from: "day" | "now"): void {
  void plan(from).then(() => {
    location.hash = "#/";
  });
}

function sizeOf({ shape }: WaitingPan): string {
  if (shape.kind === "disc") return `Ø ${length(shape.diameterCm)}`;
  return shape.kind === "rectangle" ? lengths(shape.widthCm, shape.depthCm) : `${shape.dm2} dm²`;
}

function AddForm({ day, onAdd }: { readonly day: DayFile; readonly onAdd: (pan: WaitingPan) => void }) {
  const send = (event: SubmitEvent): void => {
    event.preventDefault();
    if (!(event.currentTarget instanceof HTMLFormElement)) return;
    const form = new FormData(event.currentTarget);
    const text = (field: string): string => fieldText(form, field);
    const promise = text("promise");
    onAdd({
      id: text("name"),
      quantity: Number(text("quantity")),
      coating: text("coating"),
      readyAt: day.planFrom,
      promisedAt: promise === "" ? null : promise,
      shape: { kind: "disc", diameterCm: Number(text("diameter")) },
      heightCm: Number(text("height")),
      massKg: Number(text("mass")),
      material: text("metal"),
    });
  };
  return (
    <form onSubmit={send}>
      <h2>{words.addTitle}</h2>
      <div class="fields">
        <Field label={words.name} name="name" type="text" />
        <Field label={words.quantity} name="quantity" type="number" step="1" value="1" />
        <Field label={words.diameter} name="diameter" type="number" step="0.1" />
        <Field label={words.height} name="height" type="number" step="0.1" />
        <Field label={words.massKg} name="mass" type="number" step="0.01" />
        <Choice label={words.metal} name="metal" options={Object.keys(day.materials).map((one) => [one, one])} />
        <Choice
          label={words.coating}
          name="coating"
          options={day.coatings.map((one) => [one.id, one.name ?? one.id])}
        />
        <Field label={words.promise} name="promise" type="datetime-local" optional />
      </div>
      <button>{words.add}</button>
    </form>
  );
}

interface FieldParts {
  readonly label: string;
  readonly name: string;
  readonly type: string;
  readonly step?: string;
  readonly value?: string;
  readonly optional?: boolean;
}

function Field({ label, name, type, step, value, optional }: FieldParts) {
  const min = type === "number" ? { min: step ?? "0" } : {};
  return (
    <label>
      {label}
      <input
        name={name}
        type={type}
        required={optional !== true}
        {...min}
        {...(step ? { step } : {})}
        {...(value ? { defaultValue: value } : {})}
      />
    </label>
  );
}

function Choice({
  label,
  name,
  options,
}: {
  readonly label: string;
  readonly name: string;
  readonly options: readonly (readonly [string, string])[];
}) {
  return (
    <label>
      {label}
      <select name={name}>
        {options.map(([value, said]) => (
          <option value={value}>{said}</option>
        ))}
      </select>
    </label>
  );
}
