/** Asks for the shop's token where the service is open to the shop's net. */
import { useState } from "preact/hooks";
import { Notice } from "../parts/notice.tsx";
import { enter, fieldText, saidOf } from "./service.ts";
import { words } from "./words-en.ts";

export function TokenForm({ onEntered }: { readonly onEntered: () => void }) {
  const [said, setSaid] = useState("");
  const send = (event: SubmitEvent): void => {
    event.preventDefault();
    if (!(event.currentTarget instanceof HTMLFormElement)) return;
    const token = fieldText(new FormData(event.currentTarget), "token");
    enter(token).then(onEntered, (trouble: unknown) => setSaid(saidOf(trouble)));
  };
  return (
    <main>
      <h1>{words.shell.tokenTitle}</h1>
      <form onSubmit={send}>
        <label>
          {words.shell.token}
          <input name="token" type="password" autocomplete="current-password" required />
        </label>
        <button>{words.shell.enter}</button>
        {said !== "" && <Notice kind="alert">{said}</Notice>}
      </form>
    </main>
  );
}
