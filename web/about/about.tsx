/** What rules over the plan, what can hurt someone, what the plan leaves out, and whose work is in here. */
import { useEffect, useState } from "preact/hooks";
import { inUnits } from "../parts/said.ts";
import { Table } from "../parts/table.tsx";
import { attempt } from "../shell/live.ts";
import { ask } from "../shell/service.ts";
import { words } from "../shell/words-en.ts";
import { libraries } from "./libraries.ts";

export function About() {
  const w = words.about;
  const [version, setVersion] = useState("");
  useEffect(() => void attempt(async () => setVersion((await ask<{ version: string }>("GET", "/health")).version)), []);
  return (
    <div class="about">
      <h1>{w.title}</h1>
      <p>{w.lead}</p>
      <h2>{w.rulesTitle}</h2>
      <p>{w.rules}</p>
      <h2>{w.cautionsTitle}</h2>
      <p>{w.cautionsWhy}</p>
      <dl class="dangers">
        {w.cautions.map(([what, said]) => (
          <div>
            <dt>{what}</dt>
            <dd>{inUnits(said)}</dd>
          </div>
        ))}
      </dl>
      <h2>{w.leftOutTitle}</h2>
      <ul>
        {w.leftOut.map((one) => (
          <li>{one}</li>
        ))}
      </ul>
      <h2>{w.boundTitle}</h2>
      <p>{w.bound}</p>
      <h2>{w.dataTitle}</h2>
      <p>{w.data}</p>
      <h2>{w.offlineTitle}</h2>
      <p>{"serviceWorker" in navigator ? w.offlineKept : w.offlineNot}</p>
      <h2>{w.versionTitle}</h2>
      {version !== "" && <p>{w.version(version)}</p>}
      <p>{w.own}</p>
      <p>
        {w.openApi} <a href="/openapi.json">/openapi.json</a>
      </p>
      <details>
        <summary>{w.licences}</summary>
        <Table caption={w.licences} columns={[w.column.library, w.column.version, w.column.licence]} rows={libraries} />
      </details>
    </div>
  );
}
