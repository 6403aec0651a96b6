import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  bandedCholesky,
  bandedInverse,
  bandedLogDeterminant,
  bandedSolve,
  bandedTrace,
  bandOf,
} from '../../../src/numerics/banded-cholesky.ts';
import {
  cholesky,
  inverseFromCholesky,
  logDeterminant,
  solveCholesky,
} from '../../../src/numerics/cholesky.ts';

/** A positive definite matrix with a band, made strong on its diagonal. */
const banded = fc.integer({ min: 1, max: 12 }).chain((n) =>
  fc.record({
    n: fc.constant(n),
    reach: fc.integer({ min: 0, max: n - 1 }),
    entries: fc.array(fc.double({ min: -1, max: 1, noNaN: true }), { minLength: n * n, maxLength: n * n }),
  }),
);

function full(n: number, reach: number, entries: readonly number[]): Float64Array {
  const a = new Float64Array(n * n);
  for (let i = 0; i < n; i++) {
    for (let j = Math.max(0, i - reach); j < i; j++) a[i * n + j] = a[j * n + i] = entries[i * n + j]!;
    a[i * n + i] = 2 * n + entries[i * n + i]!;
  }
  return a;
}

describe('banded algebra', () => {
  it('agrees with the dense one', () => {
    fc.assert(
      fc.property(banded, ({ n, reach, entries }) => {
        const a = full(n, reach, entries);
        const dense = cholesky(a, n);
        const factor = bandedCholesky(bandOf(a, n, reach));
        const right = entries.slice(0, n);
        expect(bandedLogDeterminant(factor)).toBeCloseTo(logDeterminant(dense, n), 12);
        const expected = solveCholesky(dense, n, right);
        bandedSolve(factor, right).forEach((value, i) => expect(value).toBeCloseTo(expected[i]!, 12));
        const inverse = inverseFromCholesky(dense, n);
        const trace = a.reduce((sum, value, i) => sum + value * inverse[i]!, 0);
        expect(bandedTrace(bandedInverse(factor, reach), bandOf(a, n, reach))).toBeCloseTo(trace, 10);
        bandedInverse(factor).forEach((value, i) => expect(value).toBeCloseTo(inverse[i]!, 12));
        expect(trace).toBeCloseTo(n, 10);
      }),
    );
  });

  it('names the pivot of a matrix that is not positive definite', () => {
    expect(() => bandedCholesky(bandOf(Float64Array.of(1, 2, 2, 1), 2, 1))).toThrow('a[1, 1]: must leave');
  });
});
