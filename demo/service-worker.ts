// Keeps the whole page in one versioned cache, so that it opens without a network. A newer version waits until the
// maker asks for it: an open round is never reloaded under the hand.
import {
  addPlugins,
  cleanupOutdatedCaches,
  createHandlerBoundToURL,
  precacheAndRoute,
  type PrecacheEntry,
} from 'workbox-precaching';
import { NavigationRoute, registerRoute } from 'workbox-routing';

/** Every file of this build, written in by the build. */
declare const BUILT_FILES: PrecacheEntry[];

const worker = self as unknown as {
  addEventListener: {
    (type: 'message', listener: (event: MessageEvent<unknown>) => void): void;
    (type: 'install', listener: () => void): void;
    (type: 'activate', listener: (event: { waitUntil: (work: Promise<void>) => void }) => void): void;
  };
  skipWaiting: () => Promise<void>;
  registration: { readonly active: unknown };
  clients: { claim: () => Promise<void> };
};

/** Many hosts vary by `Origin`, which module scripts send and the cache's own requests do not: they would miss. */
async function withoutVary({ response }: { response: Response }): Promise<Response> {
  const headers = new Headers(response.headers);
  headers.delete('vary');
  return new Response(await response.blob(), { status: response.status, headers });
}

addPlugins([{ cacheWillUpdate: withoutVary }]);
precacheAndRoute(BUILT_FILES);
registerRoute(new NavigationRoute(createHandlerBoundToURL('index.html')));
cleanupOutdatedCaches();

// In charge from the first visit on: what is loaded later is there, even when the server has ended meanwhile.
let isFirst = false;
worker.addEventListener('install', () => {
  isFirst = worker.registration.active === null;
});
worker.addEventListener('activate', (event) => {
  if (isFirst) event.waitUntil(worker.clients.claim());
});

worker.addEventListener('message', ({ data }) => {
  if (data === 'use the newer version') void worker.skipWaiting();
});
