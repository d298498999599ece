/** A list of pans pasted from a spreadsheet or read from a CSV file: all rows or none, every bad row told. */
import { useState } from "preact/hooks";
import type { Problem } from "../../api/contract/problem.ts";
import { Notice } from "../parts/notice.tsx";
import { Table } from "../parts/table.tsx";
import { Refused, importPans, saidOf } from "../shell/service.ts";
import { words } from "../shell/words-en.ts";
import { asCsv } from "./pasted.ts";

export function ImportPans({ onAdded }: { readonly onAdded: (said: string) => void }) {
  const w = words.pans.list;
  const [text, setText] = useState("");
  const [said, setSaid] = useState("");
  const [bad, setBad] = useState<readonly Problem[]>([]);
  const send = async (): Promise<void> => {
    setBad([]);
    setSaid("");
    try {
      const { added } = await importPans(asCsv(text));
      setText("");
      onAdded(w.added(added));
    } catch (trouble) {
      const problems = trouble instanceof Refused ? trouble.problems : [];
      setBad(problems);
      setSaid(problems.length > 0 ? w.badRows(problems.length) : saidOf(trouble));
    }
  };
  return (
    <details class="import">
      <summary>{w.title}</summary>
      <p>{w.hint}</p>
      <p class="fine">
        <code>{w.header}</code>
      </p>
      <p class="buttons">
        <a class="button second" href="/pans.csv" download="pans.csv">
          {w.download}
        </a>
      </p>
      <form
        onSubmit={(event) => {
          event.preventDefault();
          void send();
        }}
      >
        <label class="field">
          {w.file}
          <input
            type="file"
            accept=".csv,text/csv,text/plain"
            onChange={(event) => void event.currentTarget.files?.[0]?.text().then(setText)}
          />
        </label>
        <label class="field">
          {w.paste}
          <textarea
            rows={8}
            spellcheck={false}
            required
            value={text}
            onInput={(event) => setText(event.currentTarget.value)}
          />
        </label>
        <p class="buttons">
          <button>{w.add}</button>
        </p>
      </form>
      {said !== "" && <Notice kind="alert">{said}</Notice>}
      {bad.length > 0 && (
        <Table
          caption={w.badCaption}
          columns={[w.row, w.wrong]}
          rows={bad.map(({ path, message }) => [path, message])}
        />
      )}
    </details>
  );
}
