/** Some of a few names, to tick. */
interface TicksParts {
  readonly label: string;
  readonly why?: string;
  readonly options: readonly (readonly [value: string, said: string])[];
  readonly chosen: readonly string[];
  readonly onChange: (chosen: readonly string[]) => void;
  readonly problem?: string | undefined;
}

export function TickList({ label, why, options, chosen, onChange, problem }: TicksParts) {
  const turn = (value: string): void =>
    onChange(chosen.includes(value) ? chosen.filter((one) => one !== value) : [...chosen, value]);
  return (
    <fieldset class="ticklist">
      <legend>{label}</legend>
      {options.map(([value, said]) => (
        <label class="tick">
          <input type="checkbox" checked={chosen.includes(value)} onChange={() => turn(value)} />
          {said}
        </label>
      ))}
      {problem !== undefined && <span class="wrong">{problem}</span>}
      {why !== undefined && <span class="fine">{why}</span>}
    </fieldset>
  );
}
