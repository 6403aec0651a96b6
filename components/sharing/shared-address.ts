/** Where the page's first script finds the address that it lets the page ask (demo/public/configure.js). */
const KEY = 'hundredths shared case';

/** The address of the shared case; undefined where there is none, or where the page may keep nothing. */
export function enteredAddress(): string | undefined {
  try {
    return localStorage.getItem(KEY) ?? undefined;
  } catch {
    return undefined;
  }
}

export function enterAddress(address: string | undefined): void {
  if (address === undefined) localStorage.removeItem(KEY);
  else localStorage.setItem(KEY, address);
}

/** Whether the page may ask an address as it was loaded. */
export function mayAsk(address: string): boolean {
  const policies = [...document.querySelectorAll<HTMLMetaElement>('meta[http-equiv]')];
  const asks = policies.find(({ content }) => content.startsWith('connect-src'));
  return asks === undefined || asks.content.split(' ').includes(address);
}
