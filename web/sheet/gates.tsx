/** What must be seen to before the burner is lit. Ticks stay on this device until the plan changes. */
import { useEffect, useState } from "preact/hooks";
import { words } from "../shell/words-en.ts";

export interface Ticks {
  readonly gates: readonly string[];
  readonly ticked: readonly string[];
  readonly turn: (gate: string) => void;
  readonly areComplete: boolean;
}

/** `id`: of the plan and the load, so that another plan's load of the same number starts unticked. */
export function useTicks(id: string, gates: readonly string[]): Ticks {
  const key = `ovenful ticks ${id}`;
  const [ticked, setTicked] = useState<readonly string[]>([]);
  useEffect(() => setTicked((localStorage.getItem(key) ?? "").split("|").filter((gate) => gate !== "")), [key]);
  const turn = (gate: string): void => {
    const next = ticked.includes(gate) ? ticked.filter((one) => one !== gate) : [...ticked, gate];
    localStorage.setItem(key, next.join("|"));
    setTicked(next);
  };
  return { gates, ticked, turn, areComplete: gates.every((gate) => ticked.includes(gate)) };
}

export function Gates({ ticks: { gates, ticked, turn } }: { readonly ticks: Ticks }) {
  return (
    <fieldset class="gates">
      <legend>{words.sheet.gates}</legend>
      {gates.map((gate) => (
        <label class="tick">
          <input type="checkbox" checked={ticked.includes(gate)} onChange={() => turn(gate)} /> {gate}
        </label>
      ))}
    </fieldset>
  );
}
