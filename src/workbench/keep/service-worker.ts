/**
 * Makes the page work without a network: keeps its files and answers from them. A file of its own, `sw.js`, beside the page.
 *
 * A new version is fetched whole, and waits until all tabs of the old one are closed or a person asks for it.
 */

/** Put in by the build: what the page consists of, relative to this file, and a mark that differs whenever one of the files does. */
declare const __FILES__: readonly string[];
declare const __BUILD__: string;

interface LastingEvent extends Event {
  readonly waitUntil: (work: Promise<unknown>) => void;
}
interface AskedEvent extends LastingEvent {
  readonly request: Request;
  readonly respondWith: (answer: Promise<Response>) => void;
}
interface WorkerScope {
  readonly registration: { readonly scope: string };
  readonly clients: { readonly claim: () => Promise<void> };
  readonly skipWaiting: () => Promise<void>;
  addEventListener(type: "install" | "activate", hear: (event: LastingEvent) => void): void;
  addEventListener(type: "fetch", hear: (event: AskedEvent) => void): void;
  addEventListener(type: "message", hear: (event: MessageEvent) => void): void;
}

const scope = globalThis as unknown as WorkerScope; // the compiler takes this file for one of a page

const PREFIX = `wireworthy ${scope.registration.scope} `;
const CACHE = PREFIX + __BUILD__;

scope.addEventListener("install", (event) => {
  // Past the browser's own cache: a file of the old version among the new ones would break the page.
  const files = __FILES__.map((file) => new Request(file, { cache: "reload" }));
  event.waitUntil(caches.open(CACHE).then((cache) => cache.addAll(files)));
});

scope.addEventListener("activate", (event) => {
  const clean = async (): Promise<void> => {
    const names = await caches.keys();
    await Promise.all(
      names.filter((name) => name.startsWith(PREFIX) && name !== CACHE).map((name) => caches.delete(name)),
    );
    await scope.clients.claim();
  };
  event.waitUntil(clean());
});

scope.addEventListener("fetch", (event) => {
  const { request } = event;
  if (request.method === "GET" && request.url.startsWith(scope.registration.scope)) event.respondWith(answer(request));
});

async function answer(request: Request): Promise<Response> {
  const cache = await caches.open(CACHE);
  // The address of the page says what it shows; the page itself is the same one.
  const wanted = request.mode === "navigate" ? new URL("./", scope.registration.scope).href : request;
  const kept =
    (await cache.match(wanted, { ignoreSearch: true })) ?? (await cache.match(request, { ignoreSearch: true }));
  return kept ?? fetch(request);
}

scope.addEventListener("message", (event) => {
  if (event.data === "take over") void scope.skipWaiting();
});
