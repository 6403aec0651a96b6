import { describe, expect, it } from 'vitest';
import type { FigureMap } from '../../../src/figures/surface-map.ts';
import { differenceWords } from '../../../src/answers/difference-words.ts';

const HUNDREDTHS = { unit: 'hundredths', decimal: 'point' } as const;

/** The same value and standard uncertainty all over a blade. */
function even(valueMm: number, uMm: number): FigureMap {
  return {
    ysMm: [0, 20],
    us: [-1, 1],
    valuesMm: new Float64Array(4).fill(valueMm),
    uMm: new Float64Array(4).fill(uMm),
    factor: () => 3,
  };
}

describe('what a map of differences has at a place', () => {
  const place = { blade: 'A', fromTipMm: 10, across: 0 } as const;

  it('is said with its doubt at 95 %, and of the blade that faces it', () => {
    const words = differenceWords({ A: even(0.05, 0.01), B: even(-0.04, 0.01) }, place, [], HUNDREDTHS);
    expect(words.replace(/\u00a0/g, ' ')).toMatch(
      /^10\.0 mm: A.* \+5\.0 ±2\.0 hundredths; facing it B.* −4\.0 ±2\.0 hundredths$/,
    );
  });

  it('is not measurable within the band of the whole map, and not read where there is no value', () => {
    const words = (map: FigureMap) => differenceWords({ A: map }, place, [], HUNDREDTHS);
    expect(words(even(0.029, 0.01))).toMatch(/not measurable$/);
    expect(words(even(0.031, 0.01))).not.toMatch(/not measurable/);
    expect(words(even(NaN, NaN))).toMatch(/not read$/);
    expect(differenceWords({}, place, [], HUNDREDTHS)).toBe('');
  });
});
