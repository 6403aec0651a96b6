import { describe, expect, it } from 'vitest';
import { zoneLogLikelihood } from '../../../src/faults/scraping-likelihood.ts';

const density = (x: number, u: number) => Math.exp(-0.5 * (x / u) ** 2) / (u * Math.sqrt(2 * Math.PI));

/** What a reading lost is none or up to 0.06 mm alike in the whole zone, by 0.0025 mm: every level written out. */
function evenly(changes: readonly (readonly [changeMm: number, uMm: number])[]): number {
  const levels = Array.from({ length: 25 }, (_, k) => 0.0025 * k);
  const weights = levels.map((lost) => Math.exp(-lost / 0.02));
  const total = weights.reduce((sum, weight) => sum + weight, 0);
  return levels.reduce((sum, lost, k) => {
    const likely = changes.map(([change, u]) =>
      Math.max(density(change + lost, u), Math.exp(-8.7) * density(0, u)),
    );
    return sum + (weights[k]! / total) * likely.reduce((product, one) => product * one, 1);
  }, 0);
}

/** A share of the places lost an exponential amount, its density integrated by small steps; a few are strays. */
function inPatches(changes: readonly (readonly [changeMm: number, uMm: number])[]): number {
  const kinds = [0.008, 0.02, 0.05].flatMap((mean) =>
    [0.01, 0.1, 0.3, 0.6, 0.9].map((share) => [mean, share] as const),
  );
  const lossDensity = (change: number, u: number, mean: number) => {
    const step = u / 100;
    let sum = 0;
    for (let lost = step / 2; lost < 0.4; lost += step)
      sum += (Math.exp(-lost / mean) / mean) * density(change + lost, u);
    return sum * step;
  };
  const perKind = kinds.map(([mean, share]) =>
    changes.reduce(
      (product, [change, u]) =>
        product *
        (0.004 / 0.5 + 0.996 * ((1 - share) * density(change, u) + share * lossDensity(change, u, mean))),
      1,
    ),
  );
  return perKind.reduce((sum, one) => sum + one, 0) / kinds.length;
}

const asChanges = (changes: readonly (readonly [number, number])[]) => ({
  changeMm: Float64Array.from(changes, ([change]) => change),
  uMm: Float64Array.from(changes, ([, u]) => u),
});

describe('how likely the changes of a zone of one blade are', () => {
  const zones = {
    'nothing went': [
      [0.001, 0.006],
      [-0.004, 0.007],
      [0.003, 0.006],
    ],
    'all lost alike': [
      [-0.021, 0.005],
      [-0.018, 0.006],
      [-0.024, 0.006],
    ],
    'one lost far more than any level, one grew': [
      [-0.19, 0.005],
      [0.002, 0.006],
      [0.12, 0.004],
    ],
    'a place that at the level of the others is all but a stray, for it lost too little': [
      [-0.02, 0.0015],
      [-0.0201, 0.0015],
      [-0.0199, 0.0015],
      [0.0046, 0.006],
    ],
    'a place that at the level of the others is all but a stray, for it lost too much': [
      [-0.02, 0.0015],
      [-0.0201, 0.0015],
      [-0.0199, 0.0015],
      [-0.0446, 0.006],
    ],
    'doubts that reach beyond every level': [
      [-0.03, 0.05],
      [0.01, 0.04],
    ],
  } as const;

  it.each(Object.entries(zones))('is the sum of its parts, written out: %s', (_, changes) => {
    const apart = 0.77 * inPatches(changes) + 0.2 * evenly(changes);
    // The density of patches is told from a table, to a thousandth.
    expect(zoneLogLikelihood([asChanges(changes)])).toBeCloseTo(Math.log(apart), 2);
  });

  it('does not depend on what was asked before', () => {
    const [none, alike] = [asChanges(zones['nothing went']), asChanges(zones['all lost alike'])];
    const before = zoneLogLikelihood([none, alike]);
    zoneLogLikelihood([alike]);
    expect(zoneLogLikelihood([none, alike])).toBe(before);
    expect(zoneLogLikelihood([alike, none])).toBeCloseTo(before, 10);
  });
});
