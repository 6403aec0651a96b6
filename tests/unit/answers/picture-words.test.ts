import { describe, expect, it } from 'vitest';
import { pictureWords } from '../../../src/answers/picture-words.ts';
import { estimate, pointFunctional } from '../../../src/figures/functional.ts';
import { scenarioReed } from '../../scenario-reed.ts';

const reed = scenarioReed('m-142');
const writing = { unit: 'hundredths', decimal: 'point' } as const;

describe('pictureWords', () => {
  const [a, b, ...more] = pictureWords(reed, 3, writing);

  it('has a paragraph for each blade that was read', () => {
    expect(a).toMatch(
      /^Blade A, hundredths of a mm, at 0\.5, 2, 4, 6, 8, 10, 14 and 18\u00a0mm from the tip:/,
    );
    expect(b).toMatch(/^Blade B/);
    expect(more).toEqual([]);
  });

  it('says the thickness of the surface, left, middle and right', () => {
    const model = reed.model!;
    const values = (words: string) =>
      new RegExp(`${words} ([\\d., ]+)`)
        .exec(a!)![1]!
        .replace(/[;.] ?$/, '')
        .split(', ')
        .map(Number);
    for (const [words, across] of [
      ['down the left edge', -0.8],
      ['down the middle', 0],
      ['down the right edge', 0.8],
    ] as const) {
      const at = [0.5, 2, 4, 6, 8, 10, 14, 18];
      values(words).forEach((value, k) => {
        const place = { blade: 'A', pass: 3, fromTipMm: at[k]!, across } as const;
        // Half the last digit that is written.
        expect(Math.abs(value - 100 * estimate(model, pointFunctional(model, place)).valueMm)).toBeLessThan(
          0.051,
        );
      });
    }
  });

  it('names the thinnest and the thickest reading', () => {
    expect(b).toMatch(/thinnest reading is 5\.0 at 0\.5\u00a0mm, right\u00a0edge, the thickest 58\.0/);
  });
});
