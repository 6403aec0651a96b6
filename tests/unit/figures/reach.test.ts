import { describe, expect, it } from 'vitest';
import { BLADES } from '../../../shared/blade.ts';
import { standingReadings } from '../../../src/answers/standing-readings.ts';
import { estimate, pointFunctional } from '../../../src/figures/functional.ts';
import { isBeyond, reachOf } from '../../../src/figures/reach.ts';
import { assembleReed } from '../../../src/reed/assemble.ts';
import { fitReed } from '../../../src/surface/fit-reed.ts';
import { readSample } from '../../read-sample.ts';

// Grids of the sample: 0.5 to 20 mm from the tip, 0.8 to either side, on a blade of 23 mm.
const names = ['plain', 'clip', 'fine', 'partial'] as const;

describe.each(names)('beyond the outermost readings of %s', (name) => {
  const { passes } = readSample(name);
  const model = fitReed(passes);
  const uMm = (pass: number, blade: 'A' | 'B', fromTipMm: number, across: number) =>
    estimate(model, pointFunctional(model, { blade, pass, fromTipMm, across })).uMm;
  const rising = (values: readonly number[]) => values.every((value, i) => i === 0 || value > values[i - 1]!);
  const outward = (from: number, to: number) =>
    Array.from({ length: 13 }, (_, k) => from + ((to - from) * k) / 12);

  it.each(passes.map(({ index }, pass) => [index, pass]))(
    'the doubt grows outward, to every edge of the blade, in pass %i',
    (_, pass) => {
      const { bladeLengthMm } = passes[pass]!;
      for (const blade of BLADES)
        for (const side of [-1, 0, 1]) {
          // From past the last row on: over the row itself a pass with other rows may be as sure.
          const toThread = outward(20.5, bladeLengthMm).map((y) => uMm(pass, blade, y, 0.8 * side));
          const toEdge = outward(0.85, 1).map((u) => uMm(pass, blade, 5 + 6 * (side + 1), u * (side || 1)));
          const toTip = outward(0.5, 0).map((y) => uMm(pass, blade, y, 0.4 * side));
          expect(rising(toThread)).toBe(true);
          expect(rising(toEdge)).toBe(true);
          expect(rising(toTip)).toBe(true);
          // At the edges it is no longer of the size of a reading's own scatter.
          expect(toThread.at(-1)!).toBeGreaterThan(5 * uMm(pass, blade, 12, 0.8 * side));
        }
    },
  );

  it('nothing is given outside the blade', () => {
    const bladeLengthMm = Math.max(
      ...passes.map((pass) => passes[0]!.overallLengthMm - pass.overallLengthMm + pass.bladeLengthMm),
    );
    for (const [fromTipMm, across] of [
      [-0.01, 0],
      [bladeLengthMm + 0.01, 0],
      [5, 1.001],
      [5, -1.001],
      [NaN, 0],
    ] as const)
      expect(() => pointFunctional(model, { blade: 'A', pass: 0, fromTipMm, across })).toThrow(
        /must lie on the blade/,
      );
  });
});

describe('how far readings reach', () => {
  const [pass] = readSample('plain').passes;
  const reach = reachOf(pass!.readings.filter(({ blade }) => blade === 'A'));

  it('is the outline of a grid', () => {
    const grid = [0.5, 1, 4, 20].flatMap((fromTipMm) =>
      [-0.8, 0, 0.8].map((across) => ({ fromTipMm, across })),
    );
    expect(reachOf(grid)).toEqual([
      [0.5, -0.8],
      [20, -0.8],
      [20, 0.8],
      [0.5, 0.8],
    ]);
  });

  it('tells what lies beyond them from what lies between', () => {
    for (const { fromTipMm, across } of pass!.readings)
      expect(isBeyond(reach, { fromTipMm, across })).toBe(false);
    expect(isBeyond(reach, { fromTipMm: 7.3, across: 0.79 })).toBe(false);
    expect(isBeyond(reach, { fromTipMm: 7.3, across: 0.81 })).toBe(true);
    expect(isBeyond(reach, { fromTipMm: 0.4, across: 0 })).toBe(true);
    expect(isBeyond(reach, { fromTipMm: 20.1, across: 0 })).toBe(true);
  });

  it('is no wider than the spine where only the spine was read', () => {
    const spine = reachOf([1, 4, 9].map((fromTipMm) => ({ fromTipMm, across: 0 })));
    expect(isBeyond(spine, { fromTipMm: 5.5, across: 0 })).toBe(false);
    expect(isBeyond(spine, { fromTipMm: 5.5, across: 0.05 })).toBe(true);
  });

  it('moves with the cane when the tip is clipped', () => {
    const clipped = { ...pass!, index: 1, overallLengthMm: pass!.overallLengthMm - 0.4, readings: [] };
    const assembled = {
      ...assembleReed({ reed: { label: 'x', styleId: 'long-scrape' }, passes: [] }),
      passes: [pass!, clipped],
    };
    const standing = reachOf(standingReadings({ assembled }, 1).filter(({ blade }) => blade === 'A'));
    expect(isBeyond(standing, { fromTipMm: 19.5, across: 0.4 })).toBe(false);
    expect(isBeyond(standing, { fromTipMm: 19.7, across: 0.4 })).toBe(true);
    expect(isBeyond(standing, { fromTipMm: 0.2, across: 0.4 })).toBe(false);
  });
});

it('takes a blade to be at least as long as it was read', () => {
  const reading = (fromTipMm: number) =>
    ({ blade: 'A', fromTipMm, across: 0, thicknessMm: 0.5, repeat: 0, flag: 'ok', role: 'station' }) as const;
  const reed = assembleReed({
    reed: { label: 'x', styleId: 'long-scrape' },
    passes: [
      { index: 0, overallLengthMm: 70, readings: [reading(5), reading(24.5)], remedies: [] },
      { index: 1, overallLengthMm: 69.5, readings: [reading(5)], remedies: [] },
    ] as never,
  });
  expect(reed.passes.map(({ bladeLengthMm }) => bladeLengthMm)).toEqual([24.5, 24]);
});
