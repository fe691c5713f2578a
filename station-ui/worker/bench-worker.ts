/**
 * Keeps the bench's page, so that it starts while the server is away. Built into one file of its own; each build has its
 * own shelf, and an older page keeps its own until it is renewed.
 */
import { fileFor, handlingOf, pageFor } from './kept-page.ts';
import type { KeptPageParts, Shelf } from './kept-page.ts';

/** Put in when the pages are built. */
declare const PAGES_VERSION: string;
declare const KEPT_FILES: readonly string[];

/** What is used here of a service worker's global scope (W3C Service Workers). */
interface WorkerScope {
  readonly location: { readonly origin: string };
  readonly clients: { readonly claim: () => Promise<void> };
  readonly skipWaiting: () => Promise<void>;
  readonly addEventListener: (type: string, listener: (event: WorkerEvent) => void) => void;
}
interface WorkerEvent {
  readonly request: Request;
  readonly data: unknown;
  readonly waitUntil: (work: Promise<unknown>) => void;
  readonly respondWith: (response: Promise<Response>) => void;
}

const scope = globalThis as unknown as WorkerScope;
const PAGE = '/bench';
const OURS = 'benchfold-pages-';
const NAME = `${OURS}${PAGES_VERSION}`;

const shelf: Shelf = {
  match: async (address) => (await caches.open(NAME)).match(address),
  put: async (address, response) => (await caches.open(NAME)).put(address, response),
};

const parts: KeptPageParts = {
  shelf,
  fetch: (request) => fetch(request),
  wait: (milliseconds) => new Promise((done) => setTimeout(done, milliseconds)),
  page: PAGE,
};

scope.addEventListener('install', (event) => {
  event.waitUntil(
    caches
      .open(NAME)
      .then((cache) => cache.addAll([PAGE, ...KEPT_FILES].map((url) => new Request(url, { cache: 'reload' })))),
  );
});

scope.addEventListener('activate', (event) => {
  event.waitUntil(
    caches
      .keys()
      .then((names) =>
        Promise.all(names.filter((name) => name.startsWith(OURS) && name !== NAME).map((name) => caches.delete(name))),
      )
      .then(() => scope.clients.claim()),
  );
});

// A page asks this of the worker of its own version only.
scope.addEventListener('message', ({ data }) => {
  if (data === PAGES_VERSION) void scope.skipWaiting();
});

scope.addEventListener('fetch', (event) => {
  const handling = handlingOf(event.request, scope.location.origin);
  if (handling === 'page') event.respondWith(pageFor(event.request, parts));
  if (handling === 'file') event.respondWith(fileFor(event.request, parts));
});
