/** Who has shown the token: by header on every request, or once, for a cookie that no script can read. */
import { randomBytes } from "node:crypto";
import type { Request, RequestHandler } from "express";
import type { Clock } from "../clock.ts";
import { Refusal } from "../http/failure.ts";
import type { Db } from "../store/database.ts";
import { hashOf, isSecret } from "./guards.ts";

export const COOKIE = "ovenful_session";
const days = 30;

export interface Doorman {
  readonly db: Db;
  readonly clock: Clock;
  readonly token: string | null;
}

/** Lets a request through that carries the token or a session of its; all of them where no token is set. */
export function tokenGuard(doorman: Doorman, isOpen: (request: Request) => boolean): RequestHandler {
  return async (request, _response, next) => {
    if (doorman.token !== null && !isOpen(request) && !(await isKnown(request, doorman, doorman.token)))
      throw new Refusal(401, "Token needed", "Log in with the shop's token first.");
    next();
  };
}

async function isKnown(request: Request, { db, clock }: Doorman, token: string): Promise<boolean> {
  const bearer = /^Bearer (.+)$/.exec(request.headers.authorization ?? "")?.[1];
  if (bearer !== undefined) return isSecret(bearer, token);
  const session = sessionOf(request);
  if (session === undefined) return false;
  const rows = await db
    .selectFrom("session")
    .select("until")
    .where("token_hash", "=", stored(session, token))
    .execute();
  return rows.some(({ until }) => until > new Date(clock.now()).toISOString());
}

function sessionOf(request: Request): string | undefined {
  const cookies = (request.headers.cookie ?? "").split(";").map((part) => part.trim());
  return cookies.find((cookie) => cookie.startsWith(`${COOKIE}=`))?.slice(COOKIE.length + 1);
}

/** Bound to the token: with a new token, old sessions are worth nothing. */
function stored(session: string, token: string): string {
  return hashOf(`${session}\n${token}`).toString("hex");
}

/** The cookie to set for a client that showed the token. */
export async function openSession({ db, clock, token }: Doorman): Promise<string> {
  const session = randomBytes(32).toString("base64url");
  const until = new Date(clock.now() + days * 86_400_000).toISOString();
  await db.deleteFrom("session").where("until", "<", new Date(clock.now()).toISOString()).execute();
  await db
    .insertInto("session")
    .values({ token_hash: stored(session, token ?? ""), until })
    .execute();
  return `${COOKIE}=${session}; Path=/; HttpOnly; SameSite=Strict; Max-Age=${days * 86_400}`;
}

export async function endSession(request: Request, { db, token }: Doorman): Promise<string> {
  const session = sessionOf(request);
  if (session !== undefined)
    await db
      .deleteFrom("session")
      .where("token_hash", "=", stored(session, token ?? ""))
      .execute();
  return `${COOKIE}=; Path=/; HttpOnly; SameSite=Strict; Max-Age=0`;
}
