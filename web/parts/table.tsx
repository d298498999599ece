/**
 * A plain table with a caption; wide ones scroll inside their own frame, which the keyboard reaches. On a phone each row
 * of a table with many columns becomes a block of named figures.
 */
import type { ComponentChildren } from "preact";
import { words } from "../shell/words-en.ts";

interface TableParts {
  readonly caption: string;
  readonly columns: readonly string[];
  readonly rows: readonly (readonly ComponentChildren[])[];
}

const mostSideBySide = 4;

export function Table({ caption, columns, rows }: TableParts) {
  return (
    <div
      class={columns.length > mostSideBySide ? "frame many" : "frame"}
      role="region"
      aria-label={caption}
      tabIndex={0}
    >
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
            <tr>
              {row.map((cell, i) =>
                i === 0 ? <th scope="row">{cell}</th> : <td data-of={columns[i]}>{cell ?? words.none}</td>,
              )}
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  );
}
