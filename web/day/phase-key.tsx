/** What the strip beneath the curve means. */
import type { PhaseName } from "../parts/load-now.ts";
import { words } from "../shell/words-en.ts";

const phases: readonly PhaseName[] = ["loading", "purge", "warm", "soak", "coast", "unload"];

export function PhaseKey() {
  return (
    <ul class="key">
      {phases.map((name) => (
        <li>
          <svg width={28} height={16} aria-hidden="true">
            <rect class={`phase ${name}`} width={28} height={16} />
          </svg>
          {words.phase[name]}
        </li>
      ))}
    </ul>
  );
}
