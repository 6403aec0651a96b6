import { describe, expect, it } from 'vitest';
import { normalPairs } from '../../../src/numerics/normal-draws.ts';
import { seededRandom } from '../../../src/numerics/seeded-random.ts';
import { PROFILE_GRID } from '../../../src/traits/reed-summary.ts';
import { waysOfVarying } from '../../../src/traits/ways.ts';

const { ysMm, us } = PROFILE_GRID;
const places = ysMm.flatMap((y) => us.map((u) => ({ y, u })));
/** Two shapes that have nothing to do with each other: one down the back, one across the tip. */
const back = places.map(({ y }) => (y >= 10 ? 1 : 0));
const tip = places.map(({ y }) => (y <= 5 ? 1 : 0));

function reeds(count: number, [backMm, tipMm]: readonly [number, number], random: () => number): number[][] {
  return Array.from({ length: count }, () => {
    const [a, b] = normalPairs(random, 2) as unknown as [number, number];
    return places.map((_, i) => 0.4 + a * backMm * back[i]! + b * tipMm * tip[i]!);
  });
}
function shown(profiles: number[][]) {
  const variation = waysOfVarying(profiles);
  if (!('ways' in variation)) throw new Error('silent');
  return variation;
}

describe('the ways in which reeds vary', () => {
  it('are silent under eight reeds', () => {
    expect(waysOfVarying(reeds(7, [0.02, 0.01], seededRandom(1)))).toEqual({ tooFew: 7 });
  });

  it('come in mm: one standard deviation moves a place by what was planted there', () => {
    const { ways } = shown(reeds(400, [0.02, 0.01], seededRandom(2)));
    const at = places.findIndex(({ y, u }) => y === 14 && u === 0);
    // The standard deviation of 400 values is known to 3.5 %; twice that is allowed.
    expect(Math.abs(ways[0]!.oneSdMm[at]! / 0.02 - 1)).toBeLessThan(0.07);
    expect(ways[0]!.largest.fromTipMm).toBeGreaterThanOrEqual(10);
    expect(ways[0]!.mixed).toBe(false);
  });

  it('places reeds along a way in standard deviations', () => {
    const { ways } = shown(reeds(60, [0.02, 0.01], seededRandom(3)));
    const { places: along } = ways[0]!;
    const mean = along.reduce((sum, value) => sum + value, 0) / along.length;
    const squares = along.reduce((sum, value) => sum + (value - mean) ** 2, 0);
    expect(mean).toBeCloseTo(0, 9);
    expect(squares / (along.length - 1)).toBeCloseTo(1, 9);
  });

  it('say when two cannot be told apart', () => {
    // As much variance in the back as in the tip: each times the square root of the length that its rows stand for.
    const lengthOf = (shape: readonly number[]) =>
      ysMm.reduce((sum, y, row) => {
        const width = ((ysMm[row + 1] ?? y) - (ysMm[row - 1] ?? y)) / 2;
        return sum + width * shape[row * us.length]!;
      }, 0);
    const ratio = Math.sqrt(lengthOf(back) / lengthOf(tip));
    const even = shown(reeds(30, [0.01, 0.01 * ratio], seededRandom(5)));
    expect(even.ways[0]!.mixed).toBe(true);
  });

  it('give a share the doubt that it has among libraries of the same maker', () => {
    const random = seededRandom(6);
    const runs = Array.from({ length: 150 }, () => shown(reeds(40, [0.02, 0.012], random)).ways[0]!);
    const mean = runs.reduce((sum, { share }) => sum + share, 0) / runs.length;
    const sd = Math.sqrt(runs.reduce((sum, { share }) => sum + (share - mean) ** 2, 0) / (runs.length - 1));
    const told = runs.reduce((sum, { uShare }) => sum + uShare, 0) / runs.length;
    // A standard deviation of 150 values is known to 6 %; the delta method to some more.
    expect(told / sd).toBeGreaterThan(0.8);
    expect(told / sd).toBeLessThan(1.25);
  });
});
