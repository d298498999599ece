/**
 * Who may ask at all. Host and Origin are checked on every request, so that neither a foreign name that was made to
 * point at this machine nor a page of another origin reaches the shop.
 */
import { createHash, timingSafeEqual } from "node:crypto";
import { isIP } from "node:net";
import { hostname, networkInterfaces } from "node:os";
import type { Request, RequestHandler } from "express";
import { Refusal } from "../http/failure.ts";
import type { Settings } from "../settings.ts";

export function hostGuard({ host, names }: Pick<Settings, "host" | "names">): RequestHandler {
  const own = hostname().toLowerCase();
  const known = new Set(["localhost", "127.0.0.1", "[::1]", host.toLowerCase(), own, `${own}.local`, ...names]);
  return (request, _response, next) => {
    const asked = hostNameOf(request.headers.host);
    if (asked === undefined || !(known.has(asked) || isOwnAddress(asked)))
      throw new Refusal(421, "Wrong host", "This service does not go by that name. OVENFUL_NAMES lists further names.");
    const { origin } = request.headers;
    if (origin !== undefined && !isSameOrigin(origin, request.headers.host ?? ""))
      throw new Refusal(403, "Another origin", "A page of another origin may not ask here.");
    const site = request.headers["sec-fetch-site"];
    if (site === "cross-site" && !isTopNavigation(request))
      throw new Refusal(403, "Another origin", "A page of another site may not ask here.");
    next();
  };
}

/** Following a link to the page is fine; it reads nothing for the other site. */
function isTopNavigation(request: Request): boolean {
  return (
    request.method === "GET" &&
    request.headers["sec-fetch-mode"] === "navigate" &&
    request.headers["sec-fetch-dest"] === "document"
  );
}

function hostNameOf(host: string | undefined): string | undefined {
  const found = /^(\[[0-9a-f:.]+\]|[^:/?#@\s]+)(:\d{1,5})?$/i.exec(host ?? "");
  return found?.[1]?.toLowerCase();
}

/** A bare address cannot be rebound; it must still be one of this machine's. */
function isOwnAddress(asked: string): boolean {
  const bare = asked.replace(/^\[|\]$/g, "");
  if (isIP(bare) === 0) return false;
  return Object.values(networkInterfaces()).some((list) => list?.some(({ address }) => address.toLowerCase() === bare));
}

function isSameOrigin(origin: string, host: string): boolean {
  try {
    const url = new URL(origin);
    return (
      (url.protocol === "http:" || url.protocol === "https:") && url.host === new URL(`${url.protocol}//${host}`).host
    );
  } catch {
    return false;
  }
}

export function hashOf(secret: string): Buffer {
  return createHash("sha256").update(secret).digest();
}

export function isSecret(given: string, secret: string): boolean {
  return timingSafeEqual(hashOf(given), hashOf(secret));
}
