// Makes a library as it is after many years, in the browser that then opens it.
import { openLedger } from '../../src/ledger/ledger.ts';
import { sha256 } from '../../src/ledger/sha256.ts';
import { makeId } from '../../shared/ids.ts';
import type { LibraryDocument } from '../../shared/library.ts';
import { seededRandom } from '../seeded-random.ts';

const PASSES = 20;
const READINGS = 140;
const ROWS = READINGS / 14;
/** Reeds in the case at the end; all others are retired. */
const ALIVE = 40;
const DAY_MS = 86_400_000;
const START_MS = Date.parse('2026-01-05T09:00:00Z');

/** As a telephone's picture that its maker has made smaller. */
const PHOTO_BYTES = 1_000_000;

const random = seededRandom(1);
const bytes = (count: number) => Uint8Array.from({ length: count }, () => Math.floor(random() * 256));
const idAt = (ms: number) => makeId(ms, bytes(10));

const DEVICE = idAt(START_MS);
const stampAt = (ms: number, write = 1) => ({
  formatVersion: 1 as const,
  id: idAt(ms),
  versions: { [DEVICE]: write },
  createdAt: new Date(ms).toISOString(),
  updatedAt: new Date(ms).toISOString(),
  invented: true as const,
});

/** Invented: one reed and its passes, each a little thinner than the one before. */
function reedWithPasses(number: number, count: number): LibraryDocument[] {
  const madeMs = START_MS + number * DAY_MS * 0.7;
  const stamp = (ms: number) => stampAt(ms, number + 1);
  const reed = {
    ...stamp(madeMs),
    kind: 'reed' as const,
    label: `L-${String(number).padStart(4, '0')}`,
    styleId: 'long-scrape',
    state: number >= count - ALIVE ? ('playing' as const) : ('retired' as const),
    tags: [['concert', 'practice', 'dark', 'bright'][number % 4]!],
    note: `Invented reed ${number}.`,
  };
  const scatter = () => Math.round(4 * random() - 2) / 1000;
  const passes = Array.from({ length: PASSES }, (_, index) => {
    const ms = madeMs + index * 3_600_000;
    return {
      ...stamp(ms),
      kind: 'pass' as const,
      reedId: reed.id,
      index,
      takenAt: new Date(ms).toISOString(),
      overallLengthMm: 72,
      threadMm: 47,
      temperatureC: 18 + (number % 8),
      humidityPct: 40 + (number % 20),
      remedies: [],
      readings: Array.from({ length: READINGS }, (__, i) => ({
        blade: i % 2 === 0 ? ('A' as const) : ('B' as const),
        fromTipMm: 1 + (20 / ROWS) * Math.floor(i / 14),
        across: (Math.floor(i / 2) % 7) / 3 - 1,
        thicknessMm:
          Math.round(1000 * (0.15 + 0.04 * Math.floor(i / 14) + 0.01 * (PASSES - index) + scatter())) / 1000,
        repeat: 0,
        flag: 'ok' as const,
        role: 'station' as const,
      })),
    };
  });
  return [reed, ...passes];
}

/** Reeds that are taken in at once: a portion stays small in memory. */
const AT_ONCE = 10;

const grown = {
  /** Adds reeds to this browser's library. @returns The time it took, ms. */
  async make(from: number, to: number, count: number): Promise<number> {
    const start = performance.now();
    const ledger = await openLedger();
    for (let at = from; at < to; at += AT_ONCE) {
      const documents = Array.from({ length: Math.min(AT_ONCE, to - at) }, (_, i) =>
        reedWithPasses(at + i, count),
      ).flat();
      await ledger.merge({ documents, acts: [] });
    }
    ledger.close();
    return performance.now() - start;
  },
  /** Adds photographs of one reed, each with bytes of its own. @returns How many there are now. */
  async photos(from: number, to: number): Promise<number> {
    const ledger = await openLedger();
    const [reed] = reedWithPasses(0, 1);
    for (let n = from; n < to; n++) {
      const bytes = new Uint8Array(PHOTO_BYTES);
      for (let at = 0; at < bytes.length; at += 65_536)
        crypto.getRandomValues(bytes.subarray(at, at + 65_536));
      bytes.set([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a]);
      const hash = await sha256(bytes);
      const photo: LibraryDocument = {
        ...stampAt(START_MS + n),
        kind: 'photo',
        of: reed!.id,
        sha256: hash,
        bytes: bytes.length,
        mediaType: 'image/png',
      };
      await ledger.merge({
        documents: n === 0 ? [reed!, photo] : [photo],
        acts: [],
        attachments: [{ sha256: hash, bytes }],
      });
    }
    ledger.close();
    return to;
  },
  /** A file with one reed, to be brought in. */
  one: (number: number) => reedWithPasses(number, number),
};
export type Grown = typeof grown;
Object.assign(globalThis, { grown });
