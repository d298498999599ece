/** Who rules over the plan, and what can hurt someone. Always the service's own words. */
import { words } from "../shell/words-en.ts";

export function Cautions({ said }: { readonly said: readonly string[] }) {
  return (
    <section class="cautions">
      <h2>{words.cautions}</h2>
      <ul>
        {said.map((caution) => (
          <li>{caution}</li>
        ))}
      </ul>
    </section>
  );
}
