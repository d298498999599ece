/** The shelves of an oven, one by one; another is added like the last. */
import { words } from "../shell/words-en.ts";
import type { Edited } from "./editing.ts";
import { shelfFigures } from "./figure-specs.ts";
import { Figures, TextPart } from "./figures.tsx";
import type { OvenFile } from "./oven-form.tsx";
import { withValue } from "./values.ts";

type Shelf = Extract<OvenFile["space"], { kind: "shelves" }>["shelves"][number];

interface ShelvesParts {
  readonly edited: Edited<OvenFile>;
  readonly shelves: readonly Shelf[];
}

export function Shelves({ edited, shelves }: ShelvesParts) {
  const w = words.shop;
  const put = (next: readonly Shelf[]): void => {
    if (edited.draft !== undefined) edited.change(withValue(edited.draft, ["space", "shelves"], next));
  };
  const add = (): void => {
    const last = shelves.at(-1);
    if (last !== undefined) put([...shelves, { ...last, id: freeName(shelves) }]);
  };
  return (
    <section>
      <h3>{w.group.shelves}</h3>
      {shelves.map(({ id }, i) => (
        <fieldset class="question" key={i}>
          <legend>{w.shelf(id)}</legend>
          <div class="fields">
            <TextPart edited={edited} at={["space", "shelves", i, "id"]} />
          </div>
          <Figures edited={edited} specs={shelfFigures} within={["space", "shelves", i]} />
          {shelves.length > 1 && (
            <button type="button" class="second" onClick={() => put(shelves.toSpliced(i, 1))}>
              {w.dropShelf(id)}
            </button>
          )}
        </fieldset>
      ))}
      <button type="button" class="second" onClick={add}>
        {w.newShelf}
      </button>
    </section>
  );
}

function freeName(shelves: readonly Shelf[]): string {
  for (let n = shelves.length + 1; ; n++) {
    const name = words.shop.shelfName(n);
    if (!shelves.some(({ id }) => id === name)) return name;
  }
}
