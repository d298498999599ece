/** Switches the units of the whole page on this device. */
import { words } from "../shell/words-en.ts";
import { billUnit, chooseUnit, unitOptions, useUnits } from "./units.ts";
import type { UnitChoice } from "./units.ts";

export function UnitSwitch() {
  return (
    <>
      <strong>{words.units.title}</strong>
      <One quantity="temperature" />
      <One quantity="length" />
      <One quantity="mass" />
      <One quantity="gas" />
    </>
  );
}

function One<K extends keyof UnitChoice>({ quantity }: { readonly quantity: K }) {
  const chosen = useUnits();
  const options = unitOptions[quantity];
  const choose = (value: string): void => {
    const unit = options.find((option) => option === value);
    if (unit !== undefined) chooseUnit(quantity, unit);
  };
  return (
    <label>
      {words.units[quantity]}
      <select value={chosen[quantity]} onChange={(event) => choose(event.currentTarget.value)}>
        {options.map((unit) => (
          <option value={unit}>{unit === "bill" ? billUnit() : unit}</option>
        ))}
      </select>
    </label>
  );
}
