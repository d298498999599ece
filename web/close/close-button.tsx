/** Closing asks once more: it is not undone. */
import { useLayoutEffect, useRef, useState } from "preact/hooks";
import { words } from "../shell/words-en.ts";

export function CloseButton({ onClose }: { readonly onClose: () => void }) {
  const w = words.close;
  const [isAsking, setAsking] = useState(false);
  const question = useRef<HTMLParagraphElement>(null);
  // With the question itself: a key pressed right after it must not meet the old focus.
  useLayoutEffect(() => {
    if (isAsking) question.current?.focus();
  }, [isAsking]);
  const send = (event: SubmitEvent): void => {
    event.preventDefault();
    if (!isAsking) return setAsking(true);
    setAsking(false);
    onClose();
  };
  return (
    <form class="closing" onSubmit={send}>
      {isAsking && (
        <p tabIndex={-1} ref={question}>
          <strong>{w.sure}</strong>
        </p>
      )}
      <p class="buttons">
        <button>{isAsking ? w.yes : w.close}</button>
        {isAsking && (
          <button type="button" class="second" onClick={() => setAsking(false)}>
            {w.no}
          </button>
        )}
      </p>
    </form>
  );
}
