/**
 * Works what-ifs out: every variant and the day as it stands, each in a child process with the same step budget, two at a
 * time. Kept in memory only; the last few can be read.
 */
import { randomBytes } from "node:crypto";
import type { Clock } from "../clock.ts";
import type { PlanFile } from "../contract/plan.ts";
import type { WhatIf, WhatIfAsk, WhatIfCase } from "../contract/what-if.ts";
import { conflict } from "../http/failure.ts";
import type { Child, Children } from "../plans/children.ts";
import type { FromChild } from "../plans/messages.ts";
import type { Stand } from "../shop/stand.ts";
import { figuresOf } from "./figures.ts";
import type { Asked, Case } from "./asked.ts";
import { caseOf, shown, stateOf } from "./asked.ts";

interface Running {
  readonly whole: Asked;
  readonly at: number;
  readonly child: Child;
  readonly deadline: NodeJS.Timeout;
}

export interface WhatIfParts {
  readonly clock: Clock;
  /** Made when first needed. */
  readonly children: () => Children;
  readonly report: (id: string, message: string) => void;
}

const atOnce = 2;
const mostUnfinished = 3;
const mostKept = 20;
/** One search may take so long; then it is killed and told as failed. */
const longestSeconds = 60;

export class WhatIfs {
  readonly #parts: WhatIfParts;
  readonly #kept = new Map<string, Asked>();
  readonly #running = new Set<Running>();
  #children: Children | undefined;

  constructor(parts: WhatIfParts) {
    this.#parts = parts;
  }

  /** Throws a refusal where too many are being worked out. `cases`: the day as it stands first. */
  begin(ask: WhatIfAsk, stand: Stand, cases: readonly Case[]): string {
    const unfinished = [...this.#kept.values()].filter((asked) => stateOf(asked) === "searching");
    if (unfinished.length >= mostUnfinished)
      throw conflict(`${mostUnfinished} what-ifs are being worked out: wait for one, or stop it.`);
    const id = `w-${randomBytes(6).toString("hex")}`;
    const asked: Asked = { id, ask, stand, cases: cases.map(caseOf), waiting: new Set(), stopped: false };
    this.#kept.set(id, asked);
    for (const old of [...this.#kept.values()].filter((one) => stateOf(one) !== "searching"))
      if (this.#kept.size > mostKept) this.#kept.delete(old.id);
    this.#next();
    return id;
  }

  read(id: string): WhatIf | undefined {
    const asked = this.#kept.get(id);
    return asked === undefined ? undefined : shown(asked);
  }

  /** Resolves when all of it is worked out, or after `ms`. */
  async finished(id: string, ms: number): Promise<void> {
    const asked = this.#kept.get(id);
    if (asked === undefined || stateOf(asked) !== "searching") return;
    await new Promise<void>((resolve) => {
      const end = (): void => {
        clearTimeout(timer);
        asked.waiting.delete(end);
        resolve();
      };
      const timer = setTimeout(end, ms);
      asked.waiting.add(end);
    });
  }

  stop(id: string): void {
    const asked = this.#kept.get(id);
    if (asked === undefined || stateOf(asked) !== "searching") return;
    asked.stopped = true;
    for (const running of this.#running) if (running.whole === asked) this.#leave(running, "kill");
    for (const end of asked.waiting) end();
    this.#next();
  }

  close(): void {
    for (const { id } of this.#kept.values()) this.stop(id);
    this.#children?.endAll();
  }

  #next(): void {
    for (const asked of this.#kept.values()) {
      if (asked.stopped) continue;
      for (const [at, { told, stand }] of asked.cases.entries()) {
        if (this.#running.size >= atOnce) return;
        if (told.state === "queued" && stand !== null) this.#run(asked, at, stand);
      }
    }
  }

  #run(whole: Asked, at: number, stand: Stand): void {
    this.#children ??= this.#parts.children();
    const child = this.#children.take();
    const deadline = setTimeout(() => child.kill(), longestSeconds * 1000);
    const running: Running = { whole, at, child, deadline };
    this.#running.add(running);
    this.#tell(whole, at, { state: "searching" });
    child.listen((message) => this.#heard(running, message));
    const { steps, seed } = whole.ask;
    const options = { seed, steps, seconds: longestSeconds, gapPercent: 0, numberFrom: 0 };
    child.send({ type: "plan", day: stand.day, options, madeAt: this.#parts.clock.now() });
  }

  #heard(running: Running, message: FromChild | undefined): void {
    if (!this.#running.has(running)) return;
    const { whole, at } = running;
    if (message === undefined) this.#fail(running, "It took too long, or its search ended by itself.", "gone");
    else if (message.type === "done") {
      this.#done(whole, at, message.plan);
      this.#leave(running, "done");
      this.#ended(whole);
    } else if (message.type === "unpinned")
      whole.cases[at]?.minded.push("No sound plan keeps every pinned load: they are planned anew here.");
    else if (message.type === "failed" || message.type === "faulty") {
      const words = message.type === "failed" ? message.message : `the checker found ${message.faults.length} faults`;
      this.#parts.report(whole.id, words);
      this.#fail(running, "No plan that passes the check was found.", "done");
    }
  }

  #done(whole: Asked, at: number, plan: PlanFile): void {
    const stand = whole.cases[at]?.stand;
    if (stand === null || stand === undefined) return;
    this.#tell(whole, at, { state: "done", steps: plan.search.steps, figures: figuresOf(plan, stand) });
  }

  #fail(running: Running, problem: string, how: "gone" | "done"): void {
    this.#tell(running.whole, running.at, { state: "failed", problem });
    this.#leave(running, how);
    this.#ended(running.whole);
  }

  #leave(running: Running, how: "kill" | "gone" | "done"): void {
    clearTimeout(running.deadline);
    this.#running.delete(running);
    if (how === "kill") {
      running.child.kill();
      this.#tell(running.whole, running.at, { state: "queued" });
    } else if (how === "done") this.#children?.giveBack(running.child);
  }

  #ended(whole: Asked): void {
    if (stateOf(whole) !== "searching") for (const end of whole.waiting) end();
    this.#next();
  }

  #tell(whole: Asked, at: number, parts: Partial<WhatIfCase>): void {
    const found = whole.cases[at];
    if (found !== undefined) found.told = { ...found.told, ...parts };
  }
}
