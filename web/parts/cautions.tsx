/** Who rules over the plan, and what can hurt someone. Always the service's own words, their figures in the units shown. */
import { inUnits } from "./said.ts";
import { words } from "../shell/words-en.ts";

export function Cautions({ said }: { readonly said: readonly string[] }) {
  return (
    <section class="cautions">
      <h2>{words.cautions}</h2>
      <ul>
        {said.map((caution) => (
          <li>{inUnits(caution)}</li>
        ))}
      </ul>
    </section>
  );
}
