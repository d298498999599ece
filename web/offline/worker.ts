/**
 * Keeps the page, and what the service said last, for reading while the service does not answer. Only GETs are kept:
 * nothing can be changed without the service. Built as /worker.js, so that its scope is the whole page.
 */
export {};

interface Lifetime extends Event {
  readonly waitUntil: (work: Promise<unknown>) => void;
}
interface Fetching extends Lifetime {
  readonly request: Request;
  readonly respondWith: (answer: Promise<Response>) => void;
}
/** What of a service worker's global scope is used; the page's own types know only a window. */
interface Scope {
  readonly addEventListener: ((kind: "install" | "activate", hear: (event: Lifetime) => void) => void) &
    ((kind: "fetch", hear: (event: Fetching) => void) => void);
  readonly skipWaiting: () => Promise<void>;
  readonly clients: { readonly claim: () => Promise<void> };
}
declare const self: Scope;

/** On a kept answer: when it was kept. The page reads it by the same name; a shared file would be a third to load. */
const keptAtHeader = "Ovenful-Kept-At";
const store = "ovenful";
/** Old answers fall out beyond so many. */
const mostKept = 500;

self.addEventListener("install", (event) => event.waitUntil(keepPage().then(() => self.skipWaiting())));
self.addEventListener("activate", (event) => event.waitUntil(self.clients.claim()));
self.addEventListener("fetch", (event) => {
  const { request } = event;
  if (request.method !== "GET" || new URL(request.url).origin !== location.origin) return;
  // A stream has no end that could be kept.
  if (request.headers.get("Accept")?.includes("text/event-stream") === true) return;
  event.respondWith(isForever(request.url) ? keptFirst(request) : serviceFirst(request));
});

/** The page and every file that it names. */
async function keepPage(): Promise<void> {
  const cache = await caches.open(store);
  const page = await fetch("/");
  const files = [...(await page.clone().text()).matchAll(/(?:src|href)="(\/assets\/[^"]+)"/g)].map(([, file]) => file);
  await keep(cache, new Request("/"), page);
  await cache.addAll(files.flatMap((file) => file ?? []));
}

/** A built file's name changes with its content. */
function isForever(url: string): boolean {
  return new URL(url).pathname.startsWith("/assets/");
}

async function keptFirst(request: Request): Promise<Response> {
  const cache = await caches.open(store);
  const kept = await cache.match(request);
  if (kept !== undefined) return kept;
  const answer = await fetch(request);
  await keep(cache, request, answer.clone());
  return answer;
}

/** What the service says; where it says nothing, what it said last. */
async function serviceFirst(request: Request): Promise<Response> {
  const cache = await caches.open(store);
  try {
    const answer = await fetch(request);
    await keep(cache, request, answer.clone());
    return answer;
  } catch (trouble) {
    const kept = await cache.match(request);
    if (kept === undefined) throw trouble;
    return kept;
  }
}

async function keep(cache: Cache, request: Request, answer: Response): Promise<void> {
  if (answer.status !== 200) return;
  const headers = new Headers(answer.headers);
  headers.set(keptAtHeader, new Date().toISOString());
  // A kept answer is put at the end again: the first ones are those not asked for the longest.
  await cache.delete(request);
  await cache.put(request, new Response(await answer.blob(), { headers }));
  const names = await cache.keys();
  const old = names.filter(({ url }) => !isForever(url)).slice(0, Math.max(0, names.length - mostKept));
  for (const one of old) await cache.delete(one);
}
