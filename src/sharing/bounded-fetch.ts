import { FormatError } from '../../shared/errors.ts';
import { parseBoundedJson } from '../ledger/bounded-json.ts';
import { CarrierError, type CarrierTrouble } from './carrier.ts';

/** The longest answer that is read, bytes, and how deep it may be nested. Our own numbers. */
const MAX_BYTES = 32e6;
const MAX_DEPTH = 24;
/** A server that is held says so much more often; after this long in silence the line is dead. */
const SILENCE_MS = 75_000;

/** What a status of HTTP says. Source: RFC 9110 and RFC 4918, 11.5. */
function troubleOf(status: number): CarrierTrouble {
  const known: Readonly<Record<number, CarrierTrouble>> = {
    401: 'name',
    403: 'forbidden',
    404: 'address',
    409: 'conflict',
    413: 'too much',
    429: 'busy',
    507: 'full',
  };
  return known[status] ?? (status >= 500 ? 'busy' : 'other');
}

/** The bytes of an answer, no more than are read of one. Ends when the server has been silent for long. */
async function bytesOf(response: Response, end: AbortController): Promise<Uint8Array[]> {
  const parts: Uint8Array[] = [];
  const reader = response.body?.getReader();
  let length = 0;
  while (reader) {
    const silence = setTimeout(() => end.abort(), SILENCE_MS);
    const { done, value } = await reader.read().finally(() => clearTimeout(silence));
    if (done) break;
    length += value.length;
    if (length > MAX_BYTES) {
      await reader.cancel();
      throw new CarrierError('too much');
    }
    parts.push(value);
  }
  return parts;
}

function jsonOf(text: string): unknown {
  try {
    return parseBoundedJson(text.trim(), { maxChars: MAX_BYTES, maxDepth: MAX_DEPTH });
  } catch (error) {
    if (error instanceof FormatError) throw new CarrierError('other', error.problems[0]?.what);
    throw error;
  }
}

/** An answer whose body was read within bounds. */
class BoundedResponse extends Response {
  override async json(): Promise<unknown> {
    return jsonOf(await this.text());
  }
}

/**
 * Fetches from the one address of a shared case: without cookies, without going where it is sent on to, without keeping
 * the answer, and within bounds.
 *
 * @throws CarrierError
 */
export async function boundedFetch(url: string, options: RequestInit): Promise<Response> {
  const end = new AbortController();
  const { signal } = options;
  const stop = () => end.abort(signal?.reason);
  if (signal?.aborted) stop();
  signal?.addEventListener('abort', stop, { once: true });
  const silence = setTimeout(() => end.abort(), SILENCE_MS);
  try {
    const plain = { credentials: 'omit', redirect: 'error', cache: 'no-store' } as const;
    const response = await fetch(url, { ...options, ...plain, signal: end.signal });
    clearTimeout(silence);
    const body = new Blob((await bytesOf(response, end)).map((part) => new Uint8Array(part)));
    if (!response.ok) throw new CarrierError(troubleOf(response.status), `${response.status}`);
    return new BoundedResponse(body, { status: response.status, headers: response.headers });
  } catch (error) {
    if (error instanceof CarrierError || signal?.aborted) throw error;
    throw new CarrierError('away', '', { cause: error });
  } finally {
    clearTimeout(silence);
    signal?.removeEventListener('abort', stop);
  }
}

/** Whether anything answers at an address, even where it does not let this page read what. */
export async function answersAt(url: string): Promise<boolean> {
  try {
    await fetch(url, { mode: 'no-cors', credentials: 'omit', cache: 'no-store' });
    return true;
  } catch {
    return false;
  }
}
