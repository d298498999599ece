/** A plain table with a caption; wide ones scroll inside their own frame, which the keyboard reaches. */
import type { ComponentChildren } from "preact";
import { words } from "../shell/words-en.ts";

interface TableParts {
  readonly caption: string;
  readonly columns: readonly string[];
  readonly rows: readonly (readonly ComponentChildren[])[];
}

export function Table({ caption, columns, rows }: TableParts) {
  return (
    <div class="frame" role="region" aria-label={caption} tabIndex={0}>
      <table>
        <caption>{caption}</caption>
        <thead>
          <tr>
            {columns.map((column) => (
              <th scope="col">{column}</th>
            ))}
          </tr>
        </thead>
        <tbody>
          {rows.map((row) => (
            <tr>{row.map((cell, i) => (i === 0 ? <th scope="row">{cell}</th> : <td>{cell ?? words.none}</td>))}</tr>
          ))}
        </tbody>
      </table>
    </div>
  );
}
