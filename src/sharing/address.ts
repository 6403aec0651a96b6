import { InputError } from '../../shared/errors.ts';

const THIS_MACHINE = ['localhost', '127.0.0.1', '[::1]'];
const PATH = /^\/[\w.~/-]*[\w~-]$/;

function parsed(typed: string): URL | undefined {
  try {
    return new URL(typed.trim());
  } catch {
    return undefined;
  }
}

/**
 * The address of a shared case as it is kept: `https://host:port/case`.
 *
 * @throws InputError saying what is wrong with what was typed.
 */
export function sharedAddress(typed: string): string {
  const url = parsed(typed);
  const isHere = url !== undefined && THIS_MACHINE.includes(url.hostname);
  if (url === undefined || (url.protocol !== 'https:' && url.protocol !== 'http:'))
    throw new InputError('An address is like https://server.example/case.');
  if (url.protocol === 'http:' && !isHere)
    throw new InputError(
      'Another machine is asked by https alone: by http anyone on the way could read the password.',
    );
  if (url.username || url.password)
    throw new InputError('Name and password have fields of their own: leave them out of the address.');
  const path = url.pathname.replace(/\/+$/, '');
  if (url.search || url.hash || !PATH.test(path))
    throw new InputError(
      'An address ends with the name of the case, in letters, digits and -: https://server.example/case.',
    );
  return `${url.origin}${path}`;
}
