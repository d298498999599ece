/** One more oven or coating: its name, and which one it is like; its figures are then changed on its own page. */
import { useState } from "preact/hooks";
import type { DayFile } from "../../api/contract/day.ts";
import { ChoiceField, TextField } from "../parts/field.tsx";
import { Notice } from "../parts/notice.tsx";
import { inUnits } from "../parts/said.ts";
import { ask, saidOf } from "../shell/service.ts";
import { signed } from "../shell/who.ts";
import { words } from "../shell/words-en.ts";
import { byHabit, named } from "./new-things.ts";

interface NewParts {
  readonly day: DayFile;
}

export function NewOven({ day }: NewParts) {
  const w = words.shop;
  return (
    <NewEntry
      heading={w.newOven}
      hint={w.newOvenHint}
      list="ovens"
      as="oven"
      things={[...day.ovens.map((oven) => ({ said: oven.name ?? oven.id, thing: oven })), byHabit]}
    />
  );
}

export function NewCoating({ day }: NewParts) {
  const w = words.shop;
  return (
    <NewEntry
      heading={w.newCoating}
      hint={w.newCoatingHint}
      list="coatings"
      as="coating"
      things={day.coatings.map((coating) => ({ said: coating.name ?? coating.id, thing: coating }))}
    />
  );
}

interface EntryParts {
  readonly heading: string;
  readonly hint: string;
  /** In the service's addresses. */
  readonly list: string;
  /** In the page's addresses, and as the service takes it. */
  readonly as: string;
  readonly things: readonly { readonly said: string; readonly thing: { readonly id: string } }[];
}

function NewEntry({ heading, hint, list, as, things }: EntryParts) {
  const w = words.shop;
  const [name, setName] = useState("");
  const [like, setLike] = useState("0");
  const [said, setSaid] = useState("");
  const add = (event: SubmitEvent): void => {
    event.preventDefault();
    const pattern = things[Number(like)];
    if (pattern === undefined) return;
    const thing = named(pattern.thing, name);
    ask("POST", `/${list}`, signed({ [as]: thing })).then(
      () => {
        location.hash = `#/shop/${as}/${encodeURIComponent(thing.id)}`;
      },
      (trouble: unknown) => setSaid(saidOf(trouble)),
    );
  };
  return (
    <section>
      <h2>{heading}</h2>
      <p>{hint}</p>
      {said !== "" && <Notice kind="alert">{inUnits(said)}</Notice>}
      <form class="shopform" aria-label={heading} onSubmit={add}>
        <div class="fields">
          <TextField label={w.newName} why={w.newNameWhy} value={name} onChange={setName} />
          <ChoiceField
            label={w.like}
            why={w.likeWhy}
            value={like}
            options={things.map(({ said: thing }, i) => [String(i), thing])}
            onChange={setLike}
          />
        </div>
        <p class="buttons">
          <button disabled={name.trim() === ""}>{w.add}</button>
        </p>
      </form>
    </section>
  );
}
