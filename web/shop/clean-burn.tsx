/** A firing of the empty oven between groups that spoil each other. */
import { words } from "../shell/words-en.ts";
import type { Edited } from "./editing.ts";
import { burnFigures } from "./figure-specs.ts";
import { Figures, problemAt } from "./figures.tsx";
import type { Mixing } from "./mixing.tsx";
import { TickList } from "./ticks.tsx";

interface BurnParts {
  readonly edited: Edited<Mixing>;
  readonly draft: Mixing;
  readonly groups: readonly string[];
}

/** Hot and long enough to begin with; the shop's own figures follow. */
const usual = { setPointC: 400, holdMinutes: 30 } as const;

export function CleanBurn({ edited, draft, groups }: BurnParts) {
  const w = words.shop.mixing;
  const burn = draft.cleanBurn ?? null;
  const options = groups.map((group) => [group, group] as const);
  const begin = { after: groups.slice(0, 1), before: groups.slice(1, 2), ...usual };
  return (
    <>
      <h3>{w.burn}</h3>
      <label class="tick">
        <input
          type="checkbox"
          checked={burn !== null}
          disabled={burn === null && groups.length < 2}
          onChange={() => edited.change({ ...draft, cleanBurn: burn === null ? begin : null })}
        />
        {w.burnOn}
      </label>
      {burn !== null && (
        <>
          {(["after", "before"] as const).map((side) => (
            <TickList
              label={w[side]}
              options={options}
              chosen={burn[side]}
              problem={problemAt(edited, ["cleanBurn", side])}
              onChange={(chosen) => edited.change({ ...draft, cleanBurn: { ...burn, [side]: [...chosen] } })}
            />
          ))}
          <Figures edited={edited} specs={burnFigures} within={["cleanBurn"]} />
        </>
      )}
    </>
  );
}
