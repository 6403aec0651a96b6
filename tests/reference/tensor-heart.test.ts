import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { ownSquaresMm2, TENSOR_CASES } from '../study/tensor-study.ts';

// Squared errors at the heart by R's mgcv, two tensor smooths of each pass alone; npm run study:tensor makes them anew.
interface TensorCase {
  family: string;
  gauge: string;
  seed: number;
  pSplinesMm2: [number, number];
  cubicMm2: [number, number];
}
const { cases: all } = JSON.parse(
  readFileSync(new URL('data/tensor-heart.json', import.meta.url), 'utf8'),
) as {
  cases: TensorCase[];
};

const PASSES = [0, 1] as const;
// Those by a dial; the study fits the others, too.
const SETTINGS = TENSOR_CASES.filter(({ gauge }) => gauge === 'dial');
const cases = all.filter(({ gauge }) => gauge === 'dial');
const own = SETTINGS.map(ownSquaresMm2);
const sum = (values: readonly number[]) => values.reduce((a, b) => a + b, 0);
const rmsOf = (which: readonly number[], pass: 0 | 1) => ({
  bench: Math.sqrt(sum(which.map((i) => own[i]![pass]))),
  smooths: (['pSplinesMm2', 'cubicMm2'] as const).map((name) =>
    Math.sqrt(sum(which.map((i) => cases[i]![name][pass]))),
  ),
});

describe('the heart beside a tensor smooth of the same readings', () => {
  it('is of the same reeds', () => {
    expect(cases.map(({ family, seed }) => [family, seed])).toEqual(
      SETTINGS.map(({ family, seed }) => [family, seed]),
    );
  });

  it.each(PASSES)(
    'is at most three quarters as far from the truth, all reeds together, after pass %i',
    (pass) => {
      const { bench, smooths } = rmsOf([...cases.keys()], pass);
      for (const smooth of smooths) expect(bench).toBeLessThan(0.75 * smooth);
    },
  );

  // A wedge without a ridge before the heart is the case that one smoothness all over suits best.
  it.each(
    PASSES.flatMap((pass) =>
      [...new Set(cases.map(({ family }) => family))].map((family) => [pass, family] as const),
    ),
  )('after pass %i is no further from it in %s', (pass, family) => {
    const which = [...cases.keys()].filter((i) => cases[i]!.family === family);
    const { bench, smooths } = rmsOf(which, pass);
    const least = Math.min(...smooths);
    expect(bench).toBeLessThan(family === 'soft bark' ? 1.3 * least : least);
  });
});
