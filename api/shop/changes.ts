/** Tells every open page, as server-sent events, that something changed: each then reads what it shows. */
import type { App } from "../http/app-parts.ts";
import { route } from "../http/route.ts";
import type { Route } from "../http/route.ts";
import { revisionOf } from "../store/change.ts";

/** How often the file is looked at while anybody listens: soon enough for two devices side by side. */
const lookMs = 400;
/** Keeps proxies and sleepy phones from closing the line. */
const beatMs = 15_000;

type Listener = (state: string | undefined) => void;

interface Watch {
  readonly listeners: Set<Listener>;
  timer: NodeJS.Timeout | undefined;
  state: string;
}

/** One look at the file serves all who listen. */
const watches = new WeakMap<App["planner"], Watch>();

export const changesRoute: Route = route(
  {
    method: "get",
    path: "/changes",
    tag: "service",
    summary: "Server-sent events: `changed` {state} at once and whenever the shop or a search is no longer as it was",
    answers: { 200: "text/event-stream" },
  },
  async ({ app }, request, response) => {
    response
      .status(200)
      .set({ "Content-Type": "text/event-stream", "Cache-Control": "no-store", "X-Accel-Buffering": "no" });
    response.flushHeaders();
    const leave = listen(app, (state) => {
      if (state === undefined) response.end();
      else response.write(`event: changed\ndata: ${JSON.stringify({ state })}\n\n`);
    });
    const beat = setInterval(() => response.write(": still here\n\n"), beatMs);
    const gone = (): void => {
      clearInterval(beat);
      leave();
    };
    response.on("close", gone);
    if (request.destroyed) gone();
    return undefined;
  },
);

/** Undefined tells that the service goes down. */
function listen(app: App, listener: Listener): () => void {
  const watch = watches.get(app.planner) ?? { listeners: new Set(), timer: undefined, state: "" };
  watches.set(app.planner, watch);
  watch.listeners.add(listener);
  if (watch.state !== "") listener(watch.state);
  if (watch.timer === undefined) look(app, watch);
  return () => void watch.listeners.delete(listener);
}

function look(app: App, watch: Watch): void {
  const again = (): void => {
    watch.timer = undefined;
    if (watch.listeners.size > 0) look(app, watch);
    else watch.state = "";
  };
  watch.timer = setTimeout(again, lookMs);
  // What goes on is never held up by somebody watching it.
  watch.timer.unref();
  if (app.planner.isClosed) return end(watch);
  stateOf(app).then(
    (state) => {
      if (state === watch.state) return;
      watch.state = state;
      for (const listener of watch.listeners) listener(state);
    },
    () => end(watch),
  );
}

function end(watch: Watch): void {
  for (const listener of watch.listeners) listener(undefined);
  watch.listeners.clear();
}

/** Changes with every write of the shop, and with every search that begins or ends. */
async function stateOf({ store, planner }: App): Promise<string> {
  const revision = await revisionOf(store.db);
  const [newest] = await store.db
    .selectFrom("plan")
    .select(["id", "state"])
    .orderBy("made_at", "desc")
    .limit(1)
    .execute();
  const { searching, queued } = planner.counts;
  return [revision, newest?.id ?? "none", newest?.state ?? "", searching, queued].join("/");
}
