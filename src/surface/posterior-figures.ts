import { addTransposedTimes, dot } from '../numerics/quadratic-form.ts';
import { covarianceTimes, varianceOf } from './narrowed.ts';
import type { BladePosterior, Together } from './reed-model.ts';

/** Figures of one surface, each by its weights. */
export function figuresOf(posterior: BladePosterior, weights: readonly Float64Array[]): Together {
  const n = weights.length;
  const shared = posterior.loadings.length / posterior.mean.length;
  const own = new Float64Array(n * n);
  if (n === 1) own[0] = varianceOf(posterior, weights[0]!);
  else
    weights.forEach((row, i) => {
      const product = covarianceTimes(posterior, row);
      weights.forEach((other, j) => (own[i * n + j] = dot(other, product)));
    });
  return {
    valuesMm: Float64Array.from(weights, (row) => dot(row, posterior.mean)),
    own,
    loads: weights.map((row) => {
      const load = new Float64Array(shared);
      addTransposedTimes(load, posterior.loadings, row);
      return load;
    }),
  };
}
