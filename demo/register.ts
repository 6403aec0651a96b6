import { scriptAddress } from '../components/script-address.ts';

/** Calls back when a worker stands ready behind the one in charge. */
function watchWaiting(
  registration: ServiceWorkerRegistration,
  found: (waiting: ServiceWorker) => void,
): void {
  const look = () => {
    if (registration.waiting && navigator.serviceWorker.controller) found(registration.waiting);
  };
  look();
  registration.addEventListener('updatefound', () => {
    registration.installing?.addEventListener('statechange', look);
  });
}

/**
 * Lets the page open without a network.
 *
 * @param onNewer Called when a newer version lies ready; `use` takes it, and loads the page anew.
 */
export async function keepForOffline(onNewer: (use: () => void) => void): Promise<void> {
  if (!('serviceWorker' in navigator)) return;
  const registration = await navigator.serviceWorker.register(scriptAddress('service-worker.js'));
  watchWaiting(registration, (waiting) =>
    onNewer(() => {
      navigator.serviceWorker.addEventListener('controllerchange', () => location.reload(), { once: true });
      // By now it may have been overtaken by one that is newer still.
      (registration.waiting ?? waiting).postMessage('use the newer version');
    }),
  );
}
