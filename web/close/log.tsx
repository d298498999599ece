/** What was reported since the day began, newest first, with who reported it. */
import type { Logged } from "../../api/contract/happened.ts";
import { whenOf } from "../parts/clock.ts";
import { Table } from "../parts/table.tsx";
import { localIn } from "../parts/zone.ts";
import { happenedAt } from "../shell/events.ts";
import { words } from "../shell/words-en.ts";

interface LogParts {
  readonly events: readonly Logged[];
  readonly timeZone: string;
  /** Milliseconds. */
  readonly now: number;
}

export function Log({ events, timeZone, now }: LogParts) {
  const w = words.log;
  const c = w.column;
  const undone = new Set(events.map(({ undoes }) => undoes));
  const named: Readonly<Record<string, string>> = w.kind;
  return (
    <details class="log">
      <summary>{w.title}</summary>
      {events.length === 0 ? (
        <p>{w.none}</p>
      ) : (
        <Table
          caption={w.title}
          columns={[c.at, c.what, c.of, c.who]}
          rows={events.toReversed().map((event) => {
            const what = named[event.kind] ?? event.kind;
            return [
              whenOf(localIn(timeZone, happenedAt(event)), localIn(timeZone, now)),
              undone.has(event.id) ? w.undone(what) : what,
              event.subject,
              event.who === "" ? null : event.who,
            ];
          })}
        />
      )}
    </details>
  );
}
