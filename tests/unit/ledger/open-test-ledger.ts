import 'fake-indexeddb/auto';
import { Dexie } from 'dexie';
import type { NewDraft } from '../../../src/ledger/drafts.ts';
import { openLedger } from '../../../src/ledger/ledger.ts';
import type { Ledger, LedgerOptions } from '../../../src/ledger/ledger-face.ts';
import { seededRandom } from '../../seeded-random.ts';

let opened = 0;

/** A name that no other test uses. */
export const freshName = () => `test ${opened++}`;

/** A clock that goes on by a second whenever it is read. */
export function tickingClock(start = '2026-03-01T09:00:00Z'): () => Date {
  let at = Date.parse(start);
  return () => new Date((at += 1000));
}

export function seededBytes(seed: number): (count: number) => Uint8Array {
  const next = seededRandom(seed);
  return (count) => Uint8Array.from({ length: count }, () => Math.floor(next() * 256));
}

export function openTestLedger(options: LedgerOptions = {}): Promise<Ledger> {
  return openLedger({ name: freshName(), clock: tickingClock(), random: seededBytes(opened), ...options });
}

/** Invented. */
export const reedDraft = (label: string): Extract<NewDraft, { kind: 'reed' }> => ({
  kind: 'reed',
  label,
  styleId: 'long',
  state: 'scraping',
  tags: [],
});

/** Invented. */
export const roundDraft = (reedId: string): Extract<NewDraft, { kind: 'round' }> => ({
  kind: 'round',
  reedId,
  passIndex: 0,
  plan: 'Spot',
  stations: [{ blade: 'A', fromTipMm: 2, across: 0, role: 'station' }],
  about: {},
  startedAt: '2026-03-01T09:00:00+01:00',
});

/** Everything that a browser keeps of one library, as another device has it whose browser was copied from it. */
export async function cloned(name: string): Promise<string> {
  const copy = freshName();
  const [from, to] = [await new Dexie(name).open(), new Dexie(copy)];
  to.version(from.verno).stores(
    Object.fromEntries(
      from.tables.map(({ name: table, schema }) => [
        table,
        [schema.primKey, ...schema.indexes].map(({ src }) => src).join(),
      ]),
    ),
  );
  await to.open();
  for (const { name: table } of from.tables) await to.table(table).bulkAdd(await from.table(table).toArray());
  from.close();
  to.close();
  return copy;
}
