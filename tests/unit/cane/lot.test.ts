import { describe, expect, it } from 'vitest';
import { makeId, type Id } from '../../../shared/ids.ts';
import type { GougeReading, Piece } from '../../../shared/cane.ts';
import { flareOf } from '../../../src/cane/flare.ts';
import { USUAL_GOUGE_NOISE } from '../../../src/cane/gouge-noise.ts';
import { lotFlow } from '../../../src/cane/lot-flow.ts';
import { pieceColumns } from '../../../src/cane/lot-pieces.ts';
import { STARTING_GOUGE } from '../../../src/cane/wished-gouge.ts';
import { reed, trial } from '../rotation/playing.ts';

let count = 0;
const newId = (): Id => makeId(1_800_000_000_000 + count++, new Uint8Array(10));
const lot = { id: newId(), code: 'Z' };

function piece(own: Partial<Piece> = {}): Piece {
  const at = '2026-01-01T10:00:00.000+00:00';
  return {
    kind: 'piece',
    formatVersion: 1,
    id: newId(),
    versions: {},
    createdAt: at,
    updatedAt: at,
    lotId: lot.id,
    number: count,
    readings: [],
    ...own,
  };
}
const rejected = (reason: string) => piece({ fate: 'rejected', reason });

describe('the way from cane to good reeds', () => {
  // 12 gouged: 3 thrown, 1 not judged, 8 kept. 6 tied: 2 in the drawer. 4 tried: 1 cracked before, 1 waits. 2 good: 1 worn out, 1 not yet.
  const made = Array.from({ length: 6 }, () => piece({ fate: 'reed' }));
  const pieces = [
    ...made,
    piece({ fate: 'kept' }),
    piece({ fate: 'shaped' }),
    piece(),
    rejected('warped'),
    rejected('warped'),
    rejected('rippled'),
  ];
  const of = (k: number, own: Parameters<typeof reed>[0]) =>
    reed({ lotId: lot.id, pieceId: made[k]!.id, ...own });
  const reeds = [
    of(0, { label: 'Z-1' }),
    of(1, { label: 'Z-2' }),
    of(2, { label: 'Z-3', state: 'retired', retirement: { on: '2026-02-01', cause: 'worn out' } }),
    of(3, { label: 'Z-4', state: 'scraping' }),
    of(4, { label: 'Z-5', state: 'retired', retirement: { on: '2026-02-01', cause: 'cracked' } }),
    of(5, { label: 'Z-6', state: 'blank' }),
    reed({ label: 'Y-1', lotId: newId() }),
  ];
  const on = '2026-02-01T10:00:00.000+00:00';
  const trials = [
    trial(reeds[0]!.id, on, { verdict: 'concert' }),
    trial(reeds[1]!.id, on, { verdict: 'rehearsal' }),
    trial(reeds[2]!.id, on, { verdict: 'not yet' }),
    trial(reeds[3]!.id, on, { verdict: 'not yet' }),
  ];
  const stages = lotFlow(lot, { pieces, reeds, trials });

  it('counts every stage', () => {
    expect(stages.map(({ name, count: of, undecided }) => [name, of, undecided])).toEqual([
      ['gouged', 12, 1],
      ['kept', 8, 2],
      ['tied', 6, 1],
      ['tried', 4, 1],
      ['good', 2, 0],
    ]);
    expect(stages.map(({ left }) => left)).toEqual([
      [
        { reason: 'warped', count: 2 },
        { reason: 'rippled', count: 1 },
      ],
      [],
      [{ reason: 'cracked', count: 1 }],
      [{ reason: 'worn out', count: 1 }],
      [],
    ]);
  });

  it('adds up at every step: what goes on, what left, what is open', () => {
    stages.slice(0, -1).forEach(({ count: here, left, undecided }, k) => {
      const gone = left.reduce((sum, one) => sum + one.count, 0);
      expect(here).toBe(stages[k + 1]!.count + gone + undecided);
    });
  });

  it('gives the share of those that are decided, with the score interval', () => {
    expect(stages[0]!.share).toBeUndefined();
    expect(stages[1]!.share!.share).toBeCloseTo(8 / 11, 12);
    // Of three decided two became good. Wilson 1927 with z = 1.96: 0.208 to 0.939.
    const { share, lower, upper } = stages[4]!.share!;
    expect([share, lower, upper].map((one) => Number(one.toFixed(3)))).toEqual([0.667, 0.208, 0.939]);
  });

  it('counts a reed whose piece is not written down from the first stage on', () => {
    const [gouged, kept, tied] = lotFlow(lot, {
      pieces: [],
      reeds: [reed({ label: 'Z-9', lotId: lot.id })],
      trials: [],
    });
    expect([gouged!.count, kept!.count, tied!.count, tied!.undecided]).toEqual([1, 1, 1, 1]);
  });
});

describe('pieces of a lot side by side', () => {
  const readings = (side1: number, side2: number): GougeReading[] => [
    { alongMm: 37, arcMm: 0, thicknessMm: 0.59 },
    ...[15, 60].flatMap((alongMm) => [
      { alongMm, arcMm: -4.3, thicknessMm: side1 },
      { alongMm, arcMm: 4.3, thicknessMm: side2 },
    ]),
  ];
  const uneven = piece({ number: 2, sinceSharpened: 9, readings: readings(0.5, 0.42), fate: 'reed' });
  const even = piece({ number: 1, sinceSharpened: 8, readings: readings(0.46, 0.46), fate: 'kept' });
  const anew = piece({ number: 3, sinceSharpened: 1, readings: [] });
  const made = reed({ label: 'Z-1', pieceId: uneven.id, state: 'retired' });
  const columns = pieceColumns([uneven, anew, even], [made], STARTING_GOUGE, USUAL_GOUGE_NOISE);

  it('stand by number, with both sides, the limit and what became of them', () => {
    expect(columns.map(({ fate, judged, isAnew }) => [fate, judged, isAnew])).toEqual([
      ['in the drawer', 'equal enough', false],
      ['ended', 'too different', false],
      ['not judged', undefined, true],
    ]);
    const { sides, sideDifference } = columns[1]!;
    expect(sides!.side1Mm).toBeCloseTo(0.5, 12);
    expect(sides!.side2Mm).toBeCloseTo(0.42, 12);
    expect(sideDifference!.valueMm).toBeCloseTo(0.08, 12);
    // By hand: four readings, each seating 0.004, step 0.01/sqrt(12), placement 0.15 on a slope of 0.052.
    expect(sideDifference!.uMm).toBeCloseTo(Math.hypot(0.004, 0.0028868, 0.0078), 5);
    expect(columns[2]).not.toHaveProperty('centre');
  });
});

it('what stands out from a straight taper is what was put on it', () => {
  const straight = [0, 10, 20].map((fromFoldMm) => ({ fromFoldMm, widthMm: 7 - 0.1 * fromFoldMm }));
  const bellied = straight.map((one) => ({
    ...one,
    widthMm: one.widthMm + (one.fromFoldMm === 10 ? 0.2 : 0),
  }));
  const { taper, outlines } = flareOf([straight, bellied]);
  expect(taper.map(({ widthMm }) => widthMm)).toEqual([7, 5]);
  expect(outlines[0]!.every(({ outMm }) => Math.abs(outMm) < 1e-12)).toBe(true);
  expect(outlines[1]![1]!.outMm).toBeCloseTo(0.2, 12);
});
