// What the page may ask, before anything else of it loads: itself, and the one address of a shared case that the maker
// has entered in Setup (components/sharing/shared-address.ts has the same rule).
const SHARED_ADDRESS = /^https?:\/\/[\w.:[\]-]+\/[\w.~/-]*[\w~-]$/;
let shared = '';
try {
  const entered = localStorage.getItem('hundredths shared case') ?? '';
  if (SHARED_ADDRESS.test(entered)) shared = ` ${entered} ${entered}/`;
} catch {
  // A page that may keep nothing has no shared case.
}
const asks = document.createElement('meta');
asks.httpEquiv = 'Content-Security-Policy';
asks.content = `connect-src 'self'${shared}`;
document.head.append(asks);

// The content security policy forbids the code generation that zod would otherwise probe for. zod reads this before it
// makes its first schema, so it must stand before every module.
globalThis.__zod_globalConfig = { jitless: true };
