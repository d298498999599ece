/** One thing of the shop under the hand: read, changed, saved with the version it was read at, and what came between. */
import { useEffect, useState } from "preact/hooks";
import type { Problem } from "../../api/contract/problem.ts";
import { merged } from "./values.ts";
import { Refused, ask, saidOf } from "../shell/service.ts";
import { signed } from "../shell/who.ts";

export interface Read<T> {
  readonly value: T;
  readonly version: number;
}

export type Told =
  | { readonly kind: "nothing" | "saved" }
  | { readonly kind: "trouble"; readonly said: string }
  | { readonly kind: "conflict"; readonly theirs: unknown };

export interface Edited<T> {
  /** Undefined until it is read. */
  readonly draft: T | undefined;
  /** Undefined until it is read. */
  readonly version: number | undefined;
  readonly isChanged: boolean;
  readonly isBusy: boolean;
  readonly told: Told;
  /** Of what was sent last: refused, or taken but unlikely. Paths begin inside the thing. */
  readonly problems: readonly Problem[];
  readonly change: (draft: T) => void;
  readonly save: () => void;
  readonly revert: () => void;
  readonly takeTheirs: () => void;
  /** Saves what was changed here over what was saved in between, and leaves everything else as it was saved. */
  readonly putMine: () => void;
}

/** `name`: under which the service sends it and takes it, as "oven" or "value". `turn`: goes up when anything changed. */
export function useEdited<T>(path: string, name: string, turn: number): Edited<T> {
  const [read, setRead] = useState<Read<T> | null>(null);
  const [mine, setMine] = useState<T | undefined>();
  const [isBusy, setBusy] = useState(false);
  const [told, setTold] = useState<Told>({ kind: "nothing" });
  const [problems, setProblems] = useState<readonly Problem[]>([]);
  const [between, setBetween] = useState<Read<T> | null>(null);
  const trouble = (error: unknown): void => setTold({ kind: "trouble", said: saidOf(error) });
  const look = async (): Promise<Read<T>> => {
    const body = await ask<Record<string, unknown>>("GET", path);
    return { value: body[name] as T, version: body["version"] as number };
  };
  // What somebody else saved is shown at once where nothing is changed here; else it is told at saving, an answer that comes late too.
  useEffect(() => {
    if (mine !== undefined) return undefined;
    let isAwaited = true;
    look().then(
      (now) => isAwaited && setRead(now),
      (error: unknown) => isAwaited && trouble(error),
    );
    return () => void (isAwaited = false);
  }, [path, turn, mine === undefined]);
  const done = (): void => {
    setMine(undefined);
    setBetween(null);
  };
  const send = async (value: T, version: number): Promise<void> => {
    try {
      const headers = { "If-Match": `"${version}"` };
      const answer = await ask<{ warnings: Problem[] }>("PUT", path, signed({ [name]: value }), headers);
      setRead(await look());
      done();
      setProblems(answer.warnings.map((problem) => inside(problem, name)));
      setTold({ kind: "saved" });
    } catch (error) {
      if (error instanceof Refused && error.status === 412) {
        const now = await look();
        setBetween(now);
        return setTold({ kind: "conflict", theirs: now.value });
      }
      if (error instanceof Refused) setProblems(error.problems.map((problem) => inside(problem, name)));
      trouble(error);
    }
  };
  const run = (value: T, version: number): void => {
    setBusy(true);
    setProblems([]);
    void send(value, version)
      .catch(trouble)
      .finally(() => setBusy(false));
  };
  const nothing = (): void => {
    done();
    setProblems([]);
    setTold({ kind: "nothing" });
  };
  return {
    draft: mine === undefined ? read?.value : mine,
    version: read?.version,
    isChanged: mine !== undefined,
    isBusy,
    told,
    problems,
    change: (draft) => {
      setMine(draft);
      if (told.kind === "saved") nothing();
      setMine(draft);
    },
    save: () => mine !== undefined && read !== null && run(mine, read.version),
    revert: nothing,
    takeTheirs: () => {
      setRead(between);
      nothing();
    },
    putMine: () =>
      mine !== undefined &&
      between !== null &&
      run(read === null ? mine : merged(read.value, mine, between.value), between.version),
  };
}

/** "oven.cycle.burnerKW" of an oven is its "cycle.burnerKW"; a path elsewhere in the day stays. */
function inside(problem: Problem, name: string): Problem {
  return { ...problem, path: problem.path.replace(new RegExp(`^${name}\\.?(?=$|\\w|\\[)`), "") };
}
