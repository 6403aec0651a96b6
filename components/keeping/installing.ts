/** What a browser sends when it would install the page, where it lets a page ask for it. */
interface InstallPromptEvent extends Event {
  readonly prompt: () => Promise<unknown>;
}

let offered: InstallPromptEvent | undefined;

/** Says `bench-installing` when the page can be installed, or no longer. */
export const installing = new EventTarget();

function show(offer: InstallPromptEvent | undefined): void {
  offered = offer;
  installing.dispatchEvent(new Event('bench-installing'));
}

addEventListener('beforeinstallprompt', (event) => show(event as InstallPromptEvent));
addEventListener('appinstalled', () => show(undefined));

export const canInstall = (): boolean => offered !== undefined;

/** Asks the browser to install the page; only in answer to a click, and once. */
export async function install(): Promise<void> {
  const offer = offered;
  show(undefined);
  await offer?.prompt();
}
