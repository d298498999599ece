/** Reports what happens besides pans and the four moments of a load; what it means is told at once, with a plan for the rest. */
import { useEffect, useState } from "preact/hooks";
import type { DayFile } from "../../api/contract/day.ts";
import { ChoiceField, FigureField, TextField } from "../parts/field.tsx";
import { Notice } from "../parts/notice.tsx";
import { inUnits } from "../parts/said.ts";
import { report, undo } from "../shell/day-service.ts";
import type { Reported } from "../shell/day-service.ts";
import { attempt, plan } from "../shell/live.ts";
import type { ScreenParts } from "../shell/screens.tsx";
import { readDay, saidOf } from "../shell/service.ts";
import { words } from "../shell/words-en.ts";
import { asked, choicesOf } from "./asked.ts";
import type { Field, Kind } from "./asked.ts";

type Values = Readonly<Partial<Record<Field, string | number | null>>>;

const usualMinutes = 10;
const begin: Values = { minutes: usualMinutes, sprayers: 1, unitsLeft: null, maxDrawKW: null };

export function Happened({ live, now }: ScreenParts) {
  const w = words.happened;
  const [day, setDay] = useState<DayFile | null>(null);
  const [kind, setKind] = useState<Kind>("load-late");
  const [values, setValues] = useState<Values>(begin);
  const [told, setTold] = useState<(Reported & { readonly what: string }) | null>(null);
  const [trouble, setTrouble] = useState("");
  useEffect(() => void attempt(async () => setDay(await readDay())), [live.turn]);
  if (day === null) return <h1>{w.title}</h1>;
  const fields = asked[kind];
  const known = { day, loads: live.loads, now, kind };
  const chosen = (field: Field, oven = ""): string => {
    const choices = choicesOf(field, { ...known, oven });
    return choices.find(([value]) => value === values[field])?.[0] ?? choices[0]?.[0] ?? "";
  };
  const oven = chosen("oven");
  const valueOf = (field: Field): unknown =>
    choicesOf(field, { ...known, oven }).length > 0 ? chosen(field, oven) : values[field];
  const isMissing = fields.some((field) => (isChoice(field) ? chosen(field, oven) === "" : false));
  const send = (event: SubmitEvent): void => {
    event.preventDefault();
    const body = Object.fromEntries(
      fields
        .map((field) => [field, valueOf(field)])
        .filter(([, value]) => value !== null && value !== "" && value !== undefined),
    );
    setTrouble("");
    report({ kind, ...body }).then(
      (answer) => setTold({ ...answer, what: w.kinds[kind] }),
      (error: unknown) => {
        setTold(null);
        setTrouble(saidOf(error));
      },
    );
  };
  return (
    <>
      <h1>{w.title}</h1>
      <p>{w.lead}</p>
      {trouble !== "" && <Notice kind="alert">{inUnits(trouble)}</Notice>}
      {told !== null && <Told told={told} onUndone={() => setTold(null)} />}
      <form class="shopform" onSubmit={send}>
        <ChoiceField
          label={w.what}
          value={kind}
          options={Object.entries(w.kinds)}
          onChange={(next) => setKind(next as Kind)}
        />
        <div class="fields">
          {fields.map((field) => (
            <Asked
              field={field}
              value={isChoice(field) ? chosen(field, oven) : (values[field] ?? null)}
              choices={choicesOf(field, { ...known, oven })}
              unit={day.gas?.unit ?? "m3"}
              onChange={(value) => setValues({ ...values, [field]: value })}
            />
          ))}
        </div>
        {isMissing && <p class="wrong">{w.nothing}</p>}
        <p class="buttons">
          <button disabled={isMissing}>{w.send}</button>
          <a class="button second" href="#/">
            {w.back}
          </a>
        </p>
      </form>
    </>
  );
}

const choiceFields: readonly Field[] = ["load", "oven", "shelf", "ticket", "cause"];
const isChoice = (field: Field): boolean => choiceFields.includes(field);

interface AskedParts {
  readonly field: Field;
  readonly value: string | number | null;
  readonly choices: readonly (readonly [string, string])[];
  /** What the bottle is counted in. */
  readonly unit: string;
  readonly onChange: (value: string | number | null) => void;
}

function Asked({ field, value, choices, unit, onChange }: AskedParts) {
  const w = words.happened;
  const number = { value: typeof value === "number" ? value : null, onChange };
  switch (field) {
    case "until":
      return (
        <TextField
          label={w.until}
          why={w.untilWhy}
          type="datetime-local"
          optional
          value={String(value ?? "")}
          onChange={onChange}
        />
      );
    case "minutes":
      return <FigureField label={w.minutes} unit={words.minutesUnit} whole least={1} most={1440} {...number} />;
    case "unitsLeft":
      return (
        <FigureField
          label={w.unitsLeft}
          why={w.unitsLeftWhy}
          unit={unit.replace(/^m3$/, "m³")}
          least={0}
          most={100_000}
          {...number}
        />
      );
    case "maxDrawKW":
      return (
        <FigureField label={w.maxDrawKW} why={w.maxDrawWhy} unit="kW" optional least={0.1} most={1000} {...number} />
      );
    case "sprayers":
      return <FigureField label={w.sprayers} whole least={0} most={50} {...number} />;
    default:
      return <ChoiceField label={w[field]} value={String(value ?? "")} options={choices} onChange={onChange} />;
  }
}

interface ToldParts {
  readonly told: Reported & { readonly what: string };
  readonly onUndone: () => void;
}

/** What was reported, what it means for the pans, and what to do at the oven. */
function Told({ told, onUndone }: ToldParts) {
  const w = words.happened;
  const planLeft = async (): Promise<void> => {
    if (await plan("now")) location.hash = "#/";
  };
  return (
    <Notice kind="status">
      <strong>{w.sent(told.what)}</strong>
      {told.notes.map((note) => (
        <p>{inUnits(note)}</p>
      ))}
      {told.interrupted.map((one) => (
        <>
          <h2>{w.atOnce}</h2>
          <ol>
            {one.steps.map((step) => (
              <li>{inUnits(step)}</li>
            ))}
          </ol>
          <h2>{w.hadBy}</h2>
          <ul>
            {one.pans.map((pan) => (
              <li>{inUnits(pan.words)}</li>
            ))}
          </ul>
        </>
      ))}
      <p class="buttons">
        <button onClick={() => void planLeft()}>{w.planLeft}</button>
        <button
          class="second"
          onClick={() => void attempt(() => undo(told.event)).then((isUndone) => isUndone && onUndone())}
        >
          {w.undo}
        </button>
      </p>
    </Notice>
  );
}
