/** Keeps the page in step with the service: told of every change, asking again after the line was lost. */
import { useEffect } from "preact/hooks";
import { nowTold, refresh, tell } from "./live.ts";

/** The browser itself asks again after a cut; only where it has given up, the page does. */
const againMs = 3_000;

export function useConnection(): void {
  useEffect(() => {
    let source: EventSource | undefined;
    let isLost = false;
    let again: ReturnType<typeof setTimeout> | undefined;
    const connect = (): void => {
      source = new EventSource("/changes");
      source.addEventListener("open", () => {
        if (isLost) void refresh();
        isLost = false;
      });
      source.addEventListener("changed", () => {
        tell({ turn: nowTold().turn + 1 });
        void refresh();
      });
      source.addEventListener("error", () => {
        isLost = true;
        // A service that is going still answers while its line is cut already: only kept answers say that it went.
        if (nowTold().keptAt === null) void refresh();
        if (source?.readyState !== EventSource.CLOSED) return;
        clearTimeout(again);
        again = setTimeout(connect, againMs);
      });
    };
    connect();
    return () => {
      source?.close();
      clearTimeout(again);
    };
  }, []);
}
