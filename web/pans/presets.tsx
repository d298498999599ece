/** Presets by metal and diameter, to tap: they suggest the mass, the height, the handle and the bench work. */
import type { DayFile } from "../../api/contract/day.ts";
import { lengths } from "../parts/figures.ts";
import { bodiesFor, rimsCm } from "../parts/pan-presets.ts";
import { words } from "../shell/words-en.ts";
import { ofBody } from "./draft.ts";
import type { Draft } from "./draft.ts";

interface PresetParts {
  readonly day: DayFile;
  readonly draft: Draft;
  readonly onSize: (parts: Partial<Draft>) => void;
}

export function Presets({ day, draft, onSize }: PresetParts) {
  const w = words.pans;
  const names: Readonly<Record<string, string>> = words.rush.bodies;
  return (
    <>
      <div class="chips" role="group" aria-label={w.metal}>
        {bodiesFor(day.materials).map((body) => (
          <button
            type="button"
            class="second"
            aria-pressed={draft.body === body.id}
            onClick={() => onSize(ofBody(body))}
          >
            {names[body.id] ?? body.id}
          </button>
        ))}
      </div>
      {draft.outline !== "rectangle" && (
        <div class="chips" role="group" aria-label={w.usualDiameters}>
          {rimsCm.map((rimCm) => (
            <button
              type="button"
              class="second"
              aria-pressed={draft.rimCm === rimCm}
              onClick={() => onSize({ rimCm, isWeighed: false })}
            >
              {lengths(rimCm)}
            </button>
          ))}
        </div>
      )}
    </>
  );
}
