/**
 * One write, one transaction: the change, its event and, where the request came with an Idempotency-Key, its answer. A
 * post sent twice (a phone in a dead corner) is carried out once, even where the service was killed in between.
 */
import { createHash } from "node:crypto";
import type { Request } from "express";
import type { Change } from "../store/change.ts";
import { beginChange } from "../store/change.ts";
import type { App } from "./app-parts.ts";
import { Refusal } from "./failure.ts";
import { bytesOf } from "./read-body.ts";
import type { Answer } from "./route.ts";

export interface Key {
  readonly key: string;
  /** Hash of method, path and body. */
  readonly asked: string;
}

export interface Committed {
  readonly answer: Answer;
  /** True: the same request was carried out before, and nothing was changed now. */
  readonly replayed: boolean;
}

export type Commit = (work: (change: Change) => Promise<Answer>) => Promise<Committed>;

const keptDays = 7;
const longestKey = 200;

export function keyOf(request: Request): Key | undefined {
  const key = request.headers["idempotency-key"];
  if (key === undefined || request.method !== "POST") return undefined;
  if (typeof key !== "string" || key.length === 0 || key.length > longestKey)
    throw new Refusal(400, "Bad key", `An Idempotency-Key has 1 to ${longestKey} characters.`);
  const asked = createHash("sha256")
    .update(`${request.method} ${request.path}\n`)
    .update(bytesOf(request))
    .digest("hex");
  return { key, asked };
}

export function commitFor({ store, clock }: App, key: Key | undefined): Commit {
  return (work) =>
    store.db.transaction().execute(async (trx) => {
      const [before] = key ? await trx.selectFrom("answered").selectAll().where("key", "=", key.key).execute() : [];
      if (key !== undefined && before !== undefined && before.asked !== key.asked)
        throw new Refusal(422, "Key used already", "This Idempotency-Key came with another request: use a new one.");
      if (before !== undefined) {
        const headers = { ...(JSON.parse(before.headers) as Record<string, string>), "Idempotency-Replayed": "true" };
        return { answer: { status: before.status, headers, body: JSON.parse(before.body) as unknown }, replayed: true };
      }
      const answer = await work(beginChange(trx));
      if (key === undefined) return { answer, replayed: false };
      const at = new Date(clock.now());
      const old = new Date(clock.now() - keptDays * 86_400_000).toISOString();
      await trx.deleteFrom("answered").where("at", "<", old).execute();
      const kept = { headers: JSON.stringify(answer.headers ?? {}), body: JSON.stringify(answer.body ?? null) };
      await trx
        .insertInto("answered")
        .values({ ...key, ...kept, status: answer.status, at: at.toISOString() })
        .execute();
      return { answer, replayed: false };
    });
}
