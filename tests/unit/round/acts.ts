import type { Station } from '../../../shared/grid.ts';
import { makeId, type Id } from '../../../shared/ids.ts';
import type { Act } from '../../../shared/round.ts';
import type { ActDraft } from '../../../src/ledger/store.ts';

/** An identifier that repeats for a number. */
export function idOf(number: number): Id {
  const bytes = new Uint8Array(10);
  new DataView(bytes.buffer).setUint32(4, number);
  return makeId(1.7e12, bytes);
}

export const ROUND_ID = idOf(1_000_000);
export const DEVICE_ID = idOf(1_000_001);
export const OTHER_DEVICE_ID = idOf(1_000_002);

export const station = (blade: 'A' | 'B', fromTipMm: number, across: number): Station => ({
  blade,
  fromTipMm,
  across,
  role: 'station',
});

/** Stamps drafts as a ledger would, one after the other. */
export function stamped(drafts: readonly ActDraft[], firstSeq = 1, deviceId = DEVICE_ID): Act[] {
  return drafts.map((draft, i) => ({
    ...draft,
    id: draft.id ?? idOf(firstSeq + i),
    deviceId,
    seq: firstSeq + i,
    at: '2026-03-01T20:00:00+01:00',
  })) as Act[];
}

export const taken = (
  at: Station,
  thicknessMm: number,
  more: { replaces?: Id; step?: Id } = {},
): ActDraft => ({
  act: 'taken',
  roundId: ROUND_ID,
  station: at,
  thicknessMm,
  flag: 'ok',
  ...more,
});
export const withdrawn = (of: Id): ActDraft => ({ act: 'withdrawn', roundId: ROUND_ID, of });
