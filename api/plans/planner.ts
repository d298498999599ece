/**
 * Runs searches: two at a time in child processes, the rest in line. Keeps every improvement in the file, tells those
 * who listen, ends a search that overstays, and keeps the best plan however a search ends.
 */
import type { Clock } from "../clock.ts";
import type { DayFile } from "../contract/day.ts";
import type { Db } from "../store/database.ts";
import type { Children } from "./children.ts";
import type { Better, FromChild, SearchOptions } from "./messages.ts";
import type { Live, SearchState, Told } from "./live-search.ts";
import { begunRow, leftBehind, partsOf, writeParts } from "./search-rows.ts";
import type { RowParts } from "./search-rows.ts";

export interface PlannerParts {
  readonly db: Db;
  readonly clock: Clock;
  readonly children: Children;
  /** Told of failures that are ours; the shop's data are not in the text. */
  readonly report: (id: string, message: string) => void;
}

const atOnce = 2;
/** A search keeps its own time; one that hangs is killed so much later. A busy machine is slow to begin with its first plan. */
const graceMs = 30_000;
const stopMs = 10_000;

export class Planner {
  readonly #parts: PlannerParts;
  readonly #live = new Map<string, Live>();
  #queue: string[] = [];
  #isClosed = false;

  constructor(parts: PlannerParts) {
    this.#parts = parts;
  }

  /** True: the service goes down; whoever holds a line open ends it. */
  get isClosed(): boolean {
    return this.#isClosed;
  }

  get counts(): { readonly searching: number; readonly queued: number } {
    return { searching: this.#live.size - this.#queue.length, queued: this.#queue.length };
  }

  /**
   * Searches that a stopped or killed service left behind: those that had a plan end with the best they had, those that
   * had none yet begin now, because they were promised.
   */
  async recover(): Promise<void> {
    for (const id of await leftBehind(this.#parts.db)) this.start(id);
  }

  /** Begins the search of a plan row that is in the file, or puts it in line. */
  start(id: string): void {
    // Asked for while the service goes down: it stays in the file and begins with the next one.
    if (this.#isClosed || this.#live.has(id)) return;
    const fresh = { child: undefined, best: undefined, stopped: false, deadline: undefined };
    this.#live.set(id, { id, listeners: new Set(), saving: Promise.resolve(), ...fresh });
    this.#queue.push(id);
    this.#next();
  }

  /** Undefined where the search is over. */
  listen(
    id: string,
    told: (told: Told) => void,
  ): { readonly best: Better | undefined; readonly leave: () => void } | undefined {
    const live = this.#live.get(id);
    if (live === undefined) return undefined;
    live.listeners.add(told);
    return { best: live.best, leave: () => live.listeners.delete(told) };
  }

  /** Resolves with the first plan, the end of the search, or after `ms`; then everything told so far is in the file. */
  async firstPlan(id: string, ms: number): Promise<void> {
    await new Promise<void>((resolve) => {
      const timer = setTimeout(resolve, ms);
      const listening = this.listen(id, () => {
        clearTimeout(timer);
        listening?.leave();
        resolve();
      });
      if (listening === undefined || listening.best !== undefined) {
        clearTimeout(timer);
        listening?.leave();
        resolve();
      }
    });
    await this.#live.get(id)?.saving;
  }

  /** Ends the search and keeps the best; resolves when it has ended. */
  async stop(id: string): Promise<void> {
    const live = this.#live.get(id);
    if (live === undefined) return;
    live.stopped = true;
    if (live.child === undefined) {
      this.#queue = this.#queue.filter((other) => other !== id);
      await this.#end(live, "stopped");
      return;
    }
    const ended = this.#ended(id);
    live.child.send({ type: "stop" });
    const kill = setTimeout(() => live.child?.kill(), stopMs);
    await ended;
    clearTimeout(kill);
  }

  #ended(id: string): Promise<void> {
    return new Promise((resolve) => {
      const listening = this.listen(id, (told) => {
        if (told.kind === "ended") resolve();
      });
      if (listening === undefined) resolve();
    });
  }

  /** Stops everything, keeping what was found, and ends the child processes. */
  async close(): Promise<void> {
    this.#isClosed = true;
    await Promise.all([...this.#live.keys()].map((id) => this.stop(id)));
    this.#parts.children.endAll();
  }

  #next(): void {
    while (this.#queue.length > 0 && this.counts.searching < atOnce) {
      const live = this.#live.get(this.#queue.shift() ?? "");
      if (live !== undefined) void this.#run(live).catch((error: unknown) => this.#failed(live, String(error)));
    }
  }

  async #run(live: Live): Promise<void> {
    const child = this.#parts.children.take();
    live.child = child;
    const row = await begunRow(this.#parts.db, live.id);
    const options = JSON.parse(row.request) as SearchOptions;
    child.listen((message) => this.#heard(live, message));
    child.send({ type: "plan", day: JSON.parse(row.day) as DayFile, options, madeAt: this.#parts.clock.now() });
    if (live.stopped) child.send({ type: "stop" });
    live.deadline = setTimeout(() => child.kill(), options.seconds * 1000 + graceMs);
  }

  #heard(live: Live, message: FromChild | undefined): void {
    if (!this.#live.has(live.id)) return;
    if (message === undefined) void this.#end(live, live.best === undefined ? "failed" : "cut short");
    else if (message.type === "better") this.#better(live, message);
    else if (message.type === "done") {
      this.#better(live, message);
      this.#giveBack(live);
      void this.#end(live, live.stopped ? "stopped" : "done");
    } else if (message.type === "unpinned") {
      live.best = undefined;
      this.#save(live, { day: JSON.stringify(message.day), plan: null, cost: null, bound: null, course: null });
    } else if (message.type === "faulty") {
      this.#giveBack(live);
      this.#save(live, { faults: JSON.stringify({ plan: message.plan, faults: message.faults }) });
      this.#parts.report(live.id, `the checker found ${message.faults.length} faults`);
      void this.#end(live, live.best === undefined ? "failed" : "cut short");
    } else if (message.type === "trouble") this.#parts.report(live.id, message.message);
    else if (message.type === "failed") this.#failed(live, message.message);
  }

  #failed(live: Live, message: string): void {
    this.#parts.report(live.id, message);
    this.#giveBack(live);
    void this.#end(live, live.best === undefined ? "failed" : "cut short");
  }

  #giveBack(live: Live): void {
    if (live.child !== undefined) this.#parts.children.giveBack(live.child);
    live.child = undefined;
  }

  #better(live: Live, better: Better): void {
    live.best = better;
    this.#save(live, partsOf(better));
    for (const listener of live.listeners) listener({ kind: "better", better });
  }

  #save(live: Live, parts: RowParts): void {
    const write = (): Promise<void> => writeParts(this.#parts.db, live.id, parts);
    live.saving = live.saving.then(write).catch((error: unknown) => this.#parts.report(live.id, String(error)));
  }

  async #end(live: Live, state: SearchState): Promise<void> {
    if (!this.#live.delete(live.id)) return;
    clearTimeout(live.deadline);
    // What was promised and never begun is begun by the next service.
    const kept = this.#isClosed && live.best === undefined ? "queued" : state;
    this.#save(live, { state: kept });
    await live.saving;
    for (const listener of live.listeners) listener({ kind: "ended", state: kept });
    this.#next();
  }
}
