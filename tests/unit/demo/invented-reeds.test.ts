import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { inventedReeds } from '../../../demo/scenario/invented-reeds.ts';
import { documentSchema } from '../../../shared/library.ts';
import { prepareDrafts } from '../../../src/ledger/drafts.ts';
import { makeId } from '../../../shared/ids.ts';
import { seededRandom } from '../../seeded-random.ts';

const uniform = seededRandom(5);
const random = (bytes: number) => Uint8Array.from({ length: bytes }, () => Math.floor(256 * uniform()));
const now = new Date('2026-03-02T10:00:00Z');
const drafts = inventedReeds(now, random);
const FOLDER = new URL('../../samples/scenario/', import.meta.url);

function sample(name: string): string[] {
  const [, ...lines] = readFileSync(new URL(name, FOLDER), 'utf8').trim().split(/\r?\n/);
  return lines;
}

describe('the invented reeds', () => {
  it('are sound documents, each marked as invented', () => {
    const whole = prepareDrafts(drafts, '2026-03-02T10:00:00.000Z', () => makeId(now.getTime(), random(10)));
    for (const document of whole) {
      expect(documentSchema.safeParse(document).error).toBeUndefined();
      expect(document.invented).toBe(true);
    }
  });

  it.each(['K-117', 'S-026', 'M-142', 'M-139'])(
    'hold the readings of %s as its sample file has them',
    (label) => {
      const reed = drafts.find((draft) => draft.kind === 'reed' && draft.label === label)!;
      const passes = drafts
        .filter((draft) => draft.kind === 'pass')
        .filter(({ reedId }) => reedId === reed.id);
      const rows = passes.flatMap(({ index, overallLengthMm, readings }) =>
        readings
          .filter(({ role }) => role === 'station')
          .map(({ blade, fromTipMm, across, thicknessMm }) =>
            [
              label,
              index,
              overallLengthMm!.toFixed(2),
              'wet',
              blade,
              fromTipMm,
              across,
              thicknessMm!.toFixed(2),
            ].join(','),
          ),
      );
      const expected = sample(`${label.toLowerCase()}.csv`).map((line) => {
        const [reedLabel, pass, overall, state, blade, fromTip, across, thickness] = line.split(',');
        return [reedLabel, pass, overall, state, blade, Number(fromTip), Number(across), thickness].join(',');
      });
      expect(rows.sort()).toEqual(expected.sort());
    },
  );

  it('hold the controls of M-142 as their file has them', () => {
    const reed = drafts.find((draft) => draft.kind === 'reed' && draft.label === 'M-142')!;
    const controls = drafts
      .filter((draft) => draft.kind === 'pass')
      .filter(({ reedId }) => reedId === reed.id)
      .flatMap(({ index, overallLengthMm, soakMin, threadMm, readings }) =>
        readings
          .filter(({ role }) => role === 'control')
          .map(({ blade, fromTipMm, across, thicknessMm }) =>
            ['M-142', index, overallLengthMm!.toFixed(2), 'wet', soakMin, threadMm!.toFixed(1), 'control']
              .concat([blade, fromTipMm.toFixed(1), across, thicknessMm!.toFixed(2)])
              .join(','),
          ),
      );
    expect(controls.sort()).toEqual(
      sample('m-142-controls.csv')
        .filter((line) => line.includes('control'))
        .sort(),
    );
  });

  it('come from pieces, lots and shapes that are there', () => {
    const idsOf = (kind: 'lot' | 'piece' | 'shape') =>
      drafts.flatMap((draft) => (draft.kind === kind ? [draft.id] : []));
    const reeds = drafts.filter((draft) => draft.kind === 'reed');
    expect(reeds.length).toBeGreaterThan(3);
    for (const { lotId, pieceId, shapeId } of reeds) {
      expect(idsOf('lot')).toContain(lotId);
      expect(idsOf('piece')).toContain(pieceId);
      expect(idsOf('shape')).toContain(shapeId);
    }
  });
});
