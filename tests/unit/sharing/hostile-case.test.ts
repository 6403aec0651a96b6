import 'fake-indexeddb/auto';
import type { IncomingMessage, ServerResponse } from 'node:http';
import { afterEach, beforeEach, expect, it, vi } from 'vitest';
import { makeId } from '../../../shared/ids.ts';
import type { Pass } from '../../../shared/pass.ts';
import type { Reed } from '../../../shared/reed.ts';
import { inOrder } from '../../../src/ledger/merge.ts';
import type { Ledger } from '../../../src/ledger/ledger-face.ts';
import { carriedOf, type Carried } from '../../../src/sharing/carried.ts';
import type { CarrierError } from '../../../src/sharing/carrier.ts';
import { openCarrier } from '../../../src/sharing/pouch-carrier.ts';
import { Sharing } from '../../../src/sharing/sharing.ts';
import { openTestLedger, reedDraft } from '../ledger/open-test-ledger.ts';
import { PATIENCE_MS, startSmallServer, USERS, type SmallServer } from './small-server.ts';

let server: SmallServer;
let ledger: Ledger;
let reed: Reed;
let pass: Pass;
let sharing: Sharing;
let done: Promise<void>;

beforeEach(async () => {
  server = await startSmallServer();
  ledger = await openTestLedger();
  reed = (await ledger.keep([reedDraft('K-1')], 'reed')).steps[0]!.after as Reed;
  const readings = [0.46, 0.47].map((thicknessMm, repeat) => {
    return { blade: 'A', fromTipMm: 5, across: 0, thicknessMm, repeat, role: 'station', flag: 'ok' } as const;
  });
  const draft = { kind: 'pass', reedId: reed.id, index: 0, remedies: [], readings } as const;
  pass = (await ledger.keep([{ ...draft, readings: [...readings], remedies: [] }], 'pass')).steps[0]!
    .after as Pass;
});
afterEach(async () => {
  sharing.stop();
  await done;
  ledger.close();
  await server.close();
});

function share() {
  const { name, password } = USERS[0]!;
  const carrier = openCarrier({ address: server.address, name, password });
  sharing = new Sharing({
    ledger,
    carrier,
    chosen: { role: 'own', tags: [], photos: true, notes: true },
    by: name,
  });
  done = sharing.run();
}

const put = (documents: readonly Carried[]) =>
  server.replica.write(documents as unknown as { _id: string }[], () => undefined);
const one = async (document: unknown) =>
  (await carriedOf({ documents: [document as Reed], acts: [] }, 'stranger'))[0]!;
const even = () => vi.waitFor(() => expect(sharing.state.is).toBe('even'), PATIENCE_MS);
const trouble = () =>
  vi.waitFor(() => {
    expect(sharing.state.is).toBe('trouble');
    return (sharing.state as { readonly error: CarrierError }).error;
  }, PATIENCE_MS);

it('refuses what is no document, too large, altered, newer or of another kind, and takes the rest', async () => {
  const other = { ...reed, id: makeId(1, new Uint8Array(10)), label: '<img src=x onerror=alert(1)>' };
  const sound = await one(other);
  const altered = { ...(await one({ ...reed, note: 'true' })), record: { ...reed, note: 'false' } };
  put([
    { ...sound, _id: 'nonsense', record: { script: '<script>' } },
    { _id: 'not-ours', format: 'other' } as unknown as Carried,
    altered,
    { ...(await one({ ...other, id: makeId(2, new Uint8Array(10)) })), version: 99 as 1 },
    await one({ ...reed, kind: 'gauge', label: 'x' }),
    await one({ ...other, id: reed.id, kind: 'lot' }),
    await one({ ...other, id: makeId(3, new Uint8Array(10)), note: 'x'.repeat(3e6) }),
    sound,
  ]);
  const before = inOrder(await ledger.readWhole()).documents;
  share();
  await even();
  const after = inOrder(await ledger.readWhole()).documents;
  expect(after.filter(({ id }) => id !== other.id)).toEqual(before);
  // Script is text, here as everywhere.
  expect(((await ledger.get(other.id)) as Reed).label).toBe(other.label);
  expect(sharing.refused).toHaveLength(7);
  for (const { why } of sharing.refused) expect(why).toMatch(/^[^<>]{8,}$/);
});

it('does not take an id for something else than it names here', async () => {
  const lot = {
    kind: 'lot',
    formatVersion: 1,
    id: reed.id,
    versions: { [makeId(9, new Uint8Array(10))]: 1 },
  };
  const { createdAt, updatedAt } = reed;
  put([
    await one({ ...lot, createdAt, updatedAt, label: 'L-1', pieces: 1 }),
    await one({ ...lot, createdAt, updatedAt, label: 'L-1' }),
  ]);
  share();
  await even();
  expect((await ledger.get(reed.id))?.kind).toBe('reed');
  expect(sharing.refused.length).toBe(2);
});

it('keeps readings that a later version of a pass does not have any more', async () => {
  const stranger = makeId(7, new Uint8Array(10));
  const emptied = { ...pass, readings: [], versions: { ...pass.versions, [stranger]: 5 } };
  put([await one(emptied)]);
  share();
  await even();
  expect((await ledger.get(pass.id))?.versions).toEqual(emptied.versions);
  expect((await ledger.notChosen()).map(({ side }) => (side as Pass).readings.length)).toEqual([2]);
});

it.each<[string, (request: IncomingMessage, response: ServerResponse) => void, string]>([
  ['is no database', (_, response) => response.end('<html>Welcome</html>'), 'other'],
  ['is too old', (_, response) => response.end('{"db_name":"case","update_seq":1,"disk_size":9}'), 'version'],
  ['is full', (_, response) => response.writeHead(507).end('{"error":"full"}'), 'full'],
  ['has no such case', (_, response) => response.writeHead(404).end('{"error":"not_found"}'), 'address'],
  ['lets nobody in', (_, response) => response.writeHead(403).end('{"error":"forbidden"}'), 'forbidden'],
  ['nests without end', (_, response) => response.end(`{"db_name":${'['.repeat(1e5)}`), 'other'],
])('says so when the server %s', async (_, answer, expected) => {
  server.answer = answer;
  share();
  expect((await trouble()).trouble).toBe(expected);
  expect((await ledger.read()).live.reed).toHaveLength(1);
});

const info = (response: ServerResponse) => response.end('{"db_name":"case","update_seq":1,"sizes":{}}');

it('ends with a server that sends the same changes for ever', async () => {
  let seq = 0;
  server.answer = ({ url }, response) => {
    if (!url!.includes('_changes')) return void info(response);
    const results = Array.from({ length: 200 }, () => ({
      seq: ++seq,
      id: 'x',
      changes: [{ rev: '1-a' }],
      doc: { _id: 'x' },
    }));
    response.end(JSON.stringify({ results, last_seq: seq, pending: 1e9 }));
  };
  share();
  expect(await trouble()).toMatchObject({ trouble: 'hostile' });
});

it('ends with a server whose answer has no end', async () => {
  server.answer = ({ url }, response) => {
    if (!url!.includes('_changes')) return void info(response);
    const block = Buffer.alloc(1e6, 32);
    const more = () => {
      while (response.write(block));
      response.once('drain', more);
    };
    more();
  };
  share();
  expect(await trouble()).toMatchObject({ trouble: 'too much' });
});
