/**
 * Makes the page work without a network: keeps its files and answers from them. A file of its own, `sw.js`, beside the page.
 *
 * A new version is fetched whole, and waits until all tabs of the old one are closed or a person asks for it.
 */

/** Put in by the build: each file of the page, relative to this one, and a mark that differs whenever its bytes do. */
declare const WIREWORTHY_FILES: readonly (readonly [name: string, mark: string])[];

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
const CACHE = PREFIX + WIREWORTHY_FILES.map(([, mark]) => mark).join("");

scope.addEventListener("install", (event) => {
  const files = WIREWORTHY_FILES.map(([name]) => {
    // Kept under the address that people use; a host may answer the other one by sending on, which no browser takes for a page.
    const address = name === "index.html" ? "./" : name;
    // Past the browser's own cache: a file of the old version among the new ones would break the page.
    return new Request(address, { cache: "reload" });
  });
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
  // What stands behind `?` says what the page is to show; the page is the same one.
  const kept = await cache.match(request, { ignoreSearch: true });
  if (kept !== undefined) return kept;
  try {
    return await fetch(request);
  } catch (error) {
    const page = request.mode === "navigate" ? await cache.match("./") : undefined;
    if (page === undefined) throw error;
    return page;
  }
}

scope.addEventListener("message", (event) => {
  if (event.data === "take over") void scope.skipWaiting();
});
