/** Prices, gas, booth, bench and room: each is saved by itself. */
import type { DayFile } from "../../api/contract/day.ts";
import { words } from "../shell/words-en.ts";
import { EditForm } from "./edit-form.tsx";
import { useEdited } from "./editing.ts";
import { benchFigures, boothFigures, finishFigures, priceFigures, roomFigures } from "./figure-specs.ts";
import type { FigureSpec } from "./figure-specs.ts";
import { Figures } from "./figures.tsx";
import { GasForm } from "./gas-form.tsx";

interface SettingParts {
  readonly heading: string;
  readonly path: string;
  readonly specs: readonly FigureSpec[];
  readonly turn: number;
  readonly units?: Readonly<Record<string, string>>;
}

function Setting({ heading, path, specs, turn, units = {} }: SettingParts) {
  const edited = useEdited<unknown>(path, "value", turn);
  return (
    <section>
      <h2>{heading}</h2>
      <EditForm name={heading} edited={edited}>
        <Figures edited={edited} specs={specs} units={units} />
      </EditForm>
    </section>
  );
}

interface SettingsParts {
  readonly day: DayFile;
  readonly turn: number;
}

export function PriceForms({ day, turn }: SettingsParts) {
  const w = words.shop;
  const currency = day.currency ?? "EUR";
  const hourly = `${currency}/h`;
  return (
    <>
      <Setting
        heading={w.group.prices}
        path="/prices"
        specs={priceFigures}
        turn={turn}
        units={{
          gasPerKWh: `${currency}/kWh`,
          crewPerHour: hourly,
          latePerPanHour: hourly,
          rushLatePerPanHour: hourly,
          leftOverPerPan: currency,
          movePerPan: currency,
        }}
      />
      <GasForm turn={turn} />
    </>
  );
}

export function WorkForms({ turn }: { readonly turn: number }) {
  const w = words.shop;
  return (
    <>
      <Setting heading={w.group.booth} path="/settings/booth" specs={boothFigures} turn={turn} />
      <Setting heading={w.group.bench} path="/settings/prep" specs={benchFigures} turn={turn} />
      <Setting heading={w.group.finish} path="/settings/finishMinutes" specs={finishFigures} turn={turn} />
      <Setting heading={w.group.room} path="/settings/ambientC" specs={roomFigures} turn={turn} />
    </>
  );
}
