import * as z from 'zod';
import { fromBase64, toBase64 } from './base64.ts';
import { CarrierError, type CarriedRow, type CarriedRows, type Carrier, type Sending } from './carrier.ts';

/** Turns of the key derivation. OWASP's advice for PBKDF2 with SHA-256 in 2023, from memory. */
const TURNS = 600_000;
/** What a document says of the key: its salt, and something locked with it to tell a wrong passphrase. */
const KEY_ID = `k-${'0'.repeat(32)}`;
const CHECK = 'a shared case';
const IV_BYTES = 12;

const sealedSchema = z.object({
  _id: z.string(),
  of: z.literal('sealed'),
  record: z.strictObject({ box: z.string().max(16e6) }),
});
const plainSchema = z.looseObject({ _id: z.string().max(80) });
const keySchema = z.object({
  record: z.strictObject({
    salt: z.string().max(100),
    turns: z.int().min(TURNS).max(1e7),
    box: z.string().max(1000),
  }),
});

/** One key locks, the other makes names that only its holders can tell. */
interface Keys {
  readonly lock: CryptoKey;
  readonly name: CryptoKey;
}

const utf8 = (text: string) => new TextEncoder().encode(text);
/** Sources: RFC 8018, 5.2 (PBKDF2) for what takes long; RFC 5869 (HKDF) for two keys of it. */
async function keysOf(passphrase: string, salt: Uint8Array<ArrayBuffer>, iterations: number): Promise<Keys> {
  const { subtle } = crypto;
  const typed = await subtle.importKey('raw', utf8(passphrase.normalize('NFC')), 'PBKDF2', false, [
    'deriveBits',
  ]);
  const bits = await subtle.deriveBits({ name: 'PBKDF2', hash: 'SHA-256', salt, iterations }, typed, 256);
  const base = await subtle.importKey('raw', bits, 'HKDF', false, ['deriveKey']);
  const keyFor = (info: string, key: AesKeyGenParams | HmacKeyGenParams, uses: readonly KeyUsage[]) => {
    const from = { name: 'HKDF', hash: 'SHA-256', salt: new Uint8Array(), info: utf8(info) };
    return subtle.deriveKey(from, base, key, false, [...uses]);
  };
  return {
    lock: await keyFor('lock', { name: 'AES-GCM', length: 256 }, ['encrypt', 'decrypt']),
    name: await keyFor('name', { name: 'HMAC', hash: 'SHA-256', length: 256 }, ['sign']),
  };
}

/** Locked and authenticated, together with the name it goes under. Source: NIST SP 800-38D (GCM). */
async function locked({ lock }: Keys, name: string, plain: Uint8Array): Promise<Uint8Array> {
  const iv = crypto.getRandomValues(new Uint8Array(IV_BYTES));
  const of = { name: 'AES-GCM', iv, additionalData: utf8(name) };
  const box = await crypto.subtle.encrypt(of, lock, new Uint8Array(plain));
  return new Uint8Array([...iv, ...new Uint8Array(box)]);
}

/** @returns nothing where it was locked with another key, under another name, or altered. */
async function opened(
  { lock }: Keys,
  name: string,
  box: Uint8Array<ArrayBuffer>,
): Promise<Uint8Array | undefined> {
  const of = { name: 'AES-GCM', iv: box.slice(0, IV_BYTES), additionalData: utf8(name) };
  try {
    return new Uint8Array(await crypto.subtle.decrypt(of, lock, box.slice(IV_BYTES)));
  } catch {
    return undefined;
  }
}

async function nameOf({ name }: Keys, id: string): Promise<string> {
  const signed = new Uint8Array(await crypto.subtle.sign('HMAC', name, utf8(id)));
  return `s-${Array.from(signed.subarray(0, 16), (byte) => byte.toString(16).padStart(2, '0')).join('')}`;
}

async function seal(keys: Keys, { bytes, ...document }: Sending): Promise<Sending> {
  const _id = await nameOf(keys, document._id);
  const box = toBase64(await locked(keys, _id, utf8(JSON.stringify(document))));
  const { format, version, by } = document as unknown as Record<string, unknown>;
  const sealed = { _id, format, version, by, of: 'sealed', record: { box } };
  return bytes ? { ...sealed, bytes: await locked(keys, _id, bytes) } : sealed;
}

/** What was sealed; what was not, or with another key, comes as no document of a case. */
async function unseal(keys: Keys, id: string, document: unknown): Promise<{ readonly _id: string }> {
  const { success, data } = sealedSchema.safeParse(document);
  const plain = success ? await opened(keys, id, fromBase64(data.record.box)) : undefined;
  return plain ? plainSchema.parse(JSON.parse(new TextDecoder().decode(plain))) : { _id: id };
}

async function rowOf(keys: Keys, row: CarriedRow): Promise<CarriedRow> {
  if (row.document === undefined) return row;
  const document = await unseal(keys, row.id, row.document);
  return { ...row, id: document._id, document };
}

async function rowsOf(keys: Keys, { rows, ...rest }: CarriedRows): Promise<CarriedRows> {
  const sealed = rows.filter(({ id }) => id !== KEY_ID);
  return { ...rest, rows: await Promise.all(sealed.map((row) => rowOf(keys, row))) };
}

/** Whether a case is locked with a passphrase. */
export const isSealed = async (carrier: Carrier) => !(await carrier.missing([KEY_ID])).has(KEY_ID);

/** The keys of a case; the first device that comes makes them. @throws CarrierError when the passphrase is another one. */
async function agreeOnKeys(carrier: Carrier, passphrase: string, by: string): Promise<Keys> {
  if (!(await isSealed(carrier))) {
    const salt = crypto.getRandomValues(new Uint8Array(16));
    const keys = await keysOf(passphrase, salt, TURNS);
    const box = toBase64(await locked(keys, KEY_ID, utf8(CHECK)));
    const record = { salt: toBase64(salt), turns: TURNS, box };
    // Where another device was first, this one is not written, and the other's is read.
    await carrier.send([{ _id: KEY_ID, format: 'hundredths', version: 1, by, of: 'key', record } as Sending]);
  }
  const { success, data } = keySchema.safeParse(await carrier.read(KEY_ID));
  if (!success) throw new CarrierError('hostile', 'What it says of the passphrase is not sound.');
  const { salt, turns, box } = data.record;
  const keys = await keysOf(passphrase, fromBase64(salt), turns);
  if (!(await opened(keys, KEY_ID, fromBase64(box)))) throw new CarrierError('passphrase');
  return keys;
}

/** Some things under the names that they go by on the server. */
const named = <T extends { readonly id: string }>(keys: Keys, all: readonly T[]): Promise<T[]> =>
  Promise.all(all.map(async (one) => ({ ...one, id: await nameOf(keys, one.id) })));

/** What goes up, locked. */
function sealedUp(
  carrier: Carrier,
  keys: () => Promise<Keys>,
): Pick<Carrier, 'remembers' | 'missing' | 'send' | 'close'> {
  return {
    remembers: async (id) => carrier.remembers(await nameOf(await keys(), id)),
    async missing(ids) {
      const names = await named(
        await keys(),
        ids.map((id) => ({ id })),
      );
      const missing = await carrier.missing(names.map(({ id }) => id));
      return new Set(ids.filter((_, i) => missing.has(names[i]!.id)));
    },
    async send(documents) {
      const known = await keys();
      const sent = await carrier.send(await Promise.all(documents.map((one) => seal(known, one))));
      return sent.map((one, i) => ({ ...one, id: documents[i]!._id }));
    },
    close: async (lost) => carrier.close(await named(await keys(), lost)),
  };
}

/** What comes down, opened. */
function openedDown(
  carrier: Carrier,
  keys: () => Promise<Keys>,
): Pick<Carrier, 'changes' | 'hold' | 'branches' | 'picture'> {
  return {
    changes: async (since, limit, signal) =>
      rowsOf(await keys(), await carrier.changes(since, limit, signal)),
    hold: async (since, signal) => rowsOf(await keys(), await carrier.hold(since, signal)),
    async branches(lost) {
      const known = await keys();
      const names = await named(known, lost);
      const documents = await carrier.branches(names);
      return Promise.all(documents.map((one, i) => unseal(known, names[i]!.id, one)));
    },
    async picture(id) {
      const known = await keys();
      const name = await nameOf(known, id);
      const bytes = new Uint8Array(await carrier.picture(name));
      return (await opened(known, name, bytes)) ?? new Uint8Array();
    },
  };
}

/**
 * A carrier that locks all that it sends with a passphrase, so that the server sees no reading: only how many documents
 * there are, how long they are, when they came and under which name.
 */
export function sealing(carrier: Carrier, passphrase: string, by: string): Carrier {
  let agreed: Promise<Keys> | undefined;
  const keys = () => (agreed ??= agreeOnKeys(carrier, passphrase, by));
  return {
    ...carrier,
    ...sealedUp(carrier, keys),
    ...openedDown(carrier, keys),
    async greet() {
      await carrier.greet();
      await keys().catch((error: unknown) => {
        agreed = undefined;
        throw error;
      });
    },
  };
}
