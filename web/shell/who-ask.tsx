/** Asks once who works at this device. Nobody has to say; what was said can be changed. */
import { useId, useLayoutEffect, useRef, useState } from "preact/hooks";
import { mostLetters, setWho, useWho } from "./who.ts";
import { words } from "./words-en.ts";

interface AskParts {
  /** True: asked again on request, where it was answered before. */
  readonly isAgain: boolean;
  readonly onAnswered: () => void;
}

export function WhoAsk({ isAgain, onAnswered }: AskParts) {
  const w = words.who;
  const known = useWho();
  const [name, setName] = useState(known ?? "");
  const id = useId();
  const input = useRef<HTMLInputElement>(null);
  useLayoutEffect(() => {
    if (isAgain) input.current?.focus();
  }, [isAgain]);
  if (known !== null && !isAgain) return null;
  const answer = (said: string): void => {
    setWho(said);
    onAnswered();
  };
  return (
    <div class="who">
      <p>
        <label for={id}>
          <strong>{w.title}</strong>
        </label>{" "}
        <span class="fine" id={`${id}-hint`}>
          {w.hint}
        </span>
      </p>
      <input
        id={id}
        ref={input}
        type="text"
        autocomplete="off"
        aria-describedby={`${id}-hint`}
        maxLength={mostLetters}
        value={name}
        onInput={(event) => setName(event.currentTarget.value)}
        onKeyDown={(event) => event.key === "Enter" && answer(name)}
      />
      <button type="button" onClick={() => answer(name)}>
        {w.keep}
      </button>
      <button type="button" class="second" onClick={() => answer("")}>
        {w.nobody}
      </button>
    </div>
  );
}

/** In the foot of the page: who it is now, to change. */
export function WhoNow({ onChange }: { readonly onChange: () => void }) {
  const w = words.who;
  const known = useWho();
  return (
    <div class="whonow">
      <span class="fine">{w.now}</span>
      <button type="button" class="second" onClick={onChange}>
        {known === null || known === "" ? w.nobody : known}
        <span class="aloud"> {w.change}</span>
      </button>
    </div>
  );
}
