/** Takes an oven or a coating away, at the second press; refused while something needs it. */
import { useState } from "preact/hooks";
import { Notice } from "../parts/notice.tsx";
import { inUnits } from "../parts/said.ts";
import { Refused, ask, saidOf } from "../shell/service.ts";
import { signedPath } from "../shell/who.ts";
import { words } from "../shell/words-en.ts";

interface TakeAwayParts {
  readonly name: string;
  readonly path: string;
  /** As it was read: somebody else's change in between is not thrown away unseen. */
  readonly version: number;
}

export function TakeAway({ name, path, version }: TakeAwayParts) {
  const w = words.shop;
  const [isAsking, setAsking] = useState(false);
  const [said, setSaid] = useState("");
  const take = (): void => {
    if (!isAsking) return setAsking(true);
    setAsking(false);
    ask("DELETE", signedPath(path), undefined, { "If-Match": `"${version}"` }).then(
      () => {
        location.hash = "#/shop";
      },
      (trouble: unknown) => setSaid(isNeeded(trouble) ? w.needed : saidOf(trouble)),
    );
  };
  return (
    <section class="takeaway">
      {said !== "" && (
        <Notice kind="alert">
          <strong>{w.stays}</strong> {inUnits(said)}
        </Notice>
      )}
      {isAsking && <p role="status">{w.takeSure(name)}</p>}
      <p class="buttons">
        <button type="button" class="second" onClick={take}>
          {isAsking ? w.takeYes : w.takeAway(name)}
        </button>
        {isAsking && (
          <button type="button" class="second" onClick={() => setAsking(false)}>
            {w.takeNo}
          </button>
        )}
      </p>
    </section>
  );
}

/** What is wrong then is wrong with pans only. */
function isNeeded(trouble: unknown): boolean {
  const problems = trouble instanceof Refused ? trouble.problems : [];
  return problems.length > 0 && problems.every(({ path }) => path.startsWith("pans"));
}
