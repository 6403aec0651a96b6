import { describe, expect, it } from 'vitest';
import type { AssembledReed } from '../../../src/reed/assemble.ts';
import { isReadInFew } from '../../../src/answers/from-library.ts';
import { zoneMean, figuresOf } from '../../../src/answers/record/reed-figures.ts';
import { bladeGrids, bladeSolids } from '../../../src/answers/surface-files.ts';
import { scenarioReed } from '../../scenario-reed.ts';

const m142 = scenarioReed('M-142');

describe('a reed read in few places', () => {
  const read = (...counts: readonly (readonly [number, number])[]) =>
    ({
      passes: counts.map(([a, b]) => ({
        readings: [...Array(a).fill({ blade: 'A' }), ...Array(b).fill({ blade: 'B' })],
      })),
    }) as unknown as Pick<AssembledReed, 'passes'>;

  it('has 1 to 25 readings of a blade in its fullest pass', () => {
    expect(isReadInFew(read([0, 0]))).toBe(false);
    expect(isReadInFew(read([0, 1]))).toBe(true);
    expect(isReadInFew(read([25, 25], [3, 3]))).toBe(true);
    expect(isReadInFew(read([26, 0], [3, 3]))).toBe(false);
    expect(isReadInFew(read([3, 3], [0, 26]))).toBe(false);
  });
});

describe('surfaces that are written down', () => {
  const grids = bladeGrids({ benched: m142, pass: 3 });

  it('have 93 places along and 33 across, from the tip to the thread and from edge to edge', () => {
    expect(grids.map(({ blade }) => blade)).toEqual(['A', 'B']);
    for (const { ysMm, us, thicknessMm, halfWidthsMm } of grids) {
      expect([ysMm.length, us.length, thicknessMm.length, halfWidthsMm.length]).toEqual([
        93,
        33,
        93 * 33,
        93,
      ]);
      expect([ysMm[0], us[0], us.at(-1)]).toEqual([0, -1, 1]);
      expect(ysMm.at(-1)).toBeCloseTo(m142.assembled.passes[3]!.bladeLengthMm, 9);
    }
  });

  it('lie side by side, A on the left, two millimetres apart', () => {
    const [a, b] = bladeSolids({ benched: m142, pass: 3 }, 1).map(({ name, solid }) => {
      const across = solid.positionsMm.filter((_, k) => k % 3 === 0);
      return { name, from: Math.min(...across), to: Math.max(...across) };
    });
    expect([a!.name, b!.name]).toEqual(['Blade A', 'Blade B']);
    expect(b!.from - a!.to).toBeCloseTo(2, 9);
    expect(a!.from).toBeCloseTo(-b!.to, 9);
  });
});

it('a zone that the style does not have has no mean', () => {
  const figures = figuresOf({ benched: m142, pass: 3 });
  expect(zoneMean(figures, 'nowhere')).toBeUndefined();
  expect(zoneMean(figures, 'heart')!.id).toBe('zone.heart.mean');
});
