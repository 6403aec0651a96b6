import type { WholeLibrary } from '../src/ledger/whole-library.ts';
import { seededRandom } from './seeded-random.ts';

/** Invented: many reeds with a pass of 200 readings each. */
export function manyPasses(count: number): WholeLibrary {
  const at = '2026-03-01T09:00:00+01:00';
  const idOf = (n: number) => `01a221e3-82a9-76f6-839d-${n.toString(16).padStart(12, '0')}`;
  const stamp = (n: number) => ({
    formatVersion: 1 as const,
    id: idOf(n),
    createdAt: at,
    updatedAt: at,
    versions: { [idOf(0)]: n },
  });
  const random = seededRandom(1);
  const readings = () =>
    Array.from({ length: 200 }, (_, i) => ({
      blade: i % 2 === 0 ? ('A' as const) : ('B' as const),
      fromTipMm: 0.5 + Math.floor(i / 10) / 4,
      across: (Math.floor(i / 2) % 5) / 5,
      thicknessMm: Math.round(2000 + 6000 * random()) / 10_000,
      repeat: 0,
      flag: 'ok' as const,
      role: 'station' as const,
    }));
  const documents = Array.from({ length: count }, (_, i) => [
    {
      ...stamp(2 * i + 1),
      kind: 'reed' as const,
      label: `L-${i}`,
      styleId: 'long-scrape',
      state: 'scraping' as const,
      tags: [],
    },
    {
      ...stamp(2 * i + 2),
      kind: 'pass' as const,
      reedId: idOf(2 * i + 1),
      index: 0,
      remedies: [],
      readings: readings(),
    },
  ]).flat();
  return { documents, acts: [], attachments: [], setAside: [] };
}
