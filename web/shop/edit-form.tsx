/** The frame of every form of the shop: save, drop, what was wrong, and what somebody else saved in between. */
import { useLayoutEffect, useRef } from "preact/hooks";
import type { ComponentChildren } from "preact";
import { withUnit } from "../parts/figures.ts";
import { Notice } from "../parts/notice.tsx";
import { inUnits } from "../parts/said.ts";
import { Table } from "../parts/table.tsx";
import { words } from "../shell/words-en.ts";
import type { Edited } from "./editing.ts";
import { quantityAt } from "./figure-specs.ts";
import { wordsOf } from "./figures.tsx";
import { differences, valueAt } from "./values.ts";
import type { Place } from "./values.ts";

interface EditFormParts<T> {
  readonly name: string;
  readonly edited: Edited<T>;
  readonly children: ComponentChildren;
}

export function EditForm<T>({ name, edited, children }: EditFormParts<T>) {
  const w = words.shop;
  const { told, isChanged, isBusy } = edited;
  const top = useRef<HTMLDivElement>(null);
  useLayoutEffect(() => {
    if (told.kind !== "nothing") top.current?.focus();
  }, [told]);
  if (edited.draft === undefined && told.kind !== "trouble") return null;
  const send = (event: SubmitEvent): void => {
    event.preventDefault();
    edited.save();
  };
  return (
    <form class="shopform" aria-label={name} onSubmit={send}>
      <div tabIndex={-1} ref={top}>
        <ToldNotice edited={edited} />
      </div>
      {children}
      <div class={isChanged ? "savebar changed" : "savebar"}>
        <button disabled={!isChanged || isBusy}>{isBusy ? w.saving : w.save}</button>
        <button type="button" class="second" disabled={!isChanged || isBusy} onClick={edited.revert}>
          {w.revert}
        </button>
      </div>
    </form>
  );
}

function ToldNotice<T>({ edited }: { readonly edited: Edited<T> }) {
  const w = words.shop;
  const { told, problems } = edited;
  switch (told.kind) {
    case "nothing":
      return null;
    case "saved":
      return (
        <Notice kind="status">
          {problems.length === 0 ? w.saved : w.unlikely}
          {problems.map(({ message }) => (
            <p>{inUnits(message)}</p>
          ))}
        </Notice>
      );
    case "trouble":
      return (
        <Notice kind="alert">
          <strong>{w.refused}</strong> {inUnits(told.said)}
        </Notice>
      );
    case "conflict":
      return <Conflict edited={edited} theirs={told.theirs} />;
  }
}

function Conflict<T>({ edited, theirs }: { readonly edited: Edited<T>; readonly theirs: unknown }) {
  const w = words.shop;
  return (
    <Notice kind="alert">
      <p>
        <strong>{w.conflict}</strong>
      </p>
      <Table
        caption={w.conflictTable}
        columns={[w.field, w.yours, w.theirs]}
        rows={differences(edited.draft, theirs).map((place) => [
          nameOf(place),
          shown(valueAt(edited.draft, place), place),
          shown(valueAt(theirs, place), place),
        ])}
      />
      <div class="buttons">
        <button type="button" disabled={edited.isBusy} onClick={edited.takeTheirs}>
          {w.takeTheirs}
        </button>
        <button type="button" class="second" disabled={edited.isBusy} onClick={edited.putMine}>
          {w.putMine}
        </button>
      </div>
    </Notice>
  );
}

/** By its words; a figure of a shelf or a coat with its number before it. */
function nameOf(place: Place): string {
  const keys = place.filter((key) => typeof key === "string");
  const numbers = place.flatMap((key) => (typeof key === "number" ? [`${key + 1}: `] : []));
  const known = [keys.join("."), keys.slice(-2).join("."), keys.slice(-1).join(".")].map(wordsOf);
  return numbers.join("") + (known.find(({ why }) => why !== "") ?? wordsOf(keys.join("."))).label;
}

/** A figure in the unit that its field shows. */
function shown(value: unknown, place: Place): string {
  if (value === undefined || value === null) return words.shop.none;
  if (typeof value === "boolean") return value ? words.shop.on : words.shop.off;
  if (typeof value === "object") return JSON.stringify(value);
  const quantity = typeof value === "number" ? quantityAt(place) : undefined;
  return quantity === undefined ? String(value as string | number) : withUnit(quantity, Number(value));
}
