import fc from 'fast-check';
import { expect, it } from 'vitest';
import { dot, quadratic, symmetricTimes } from '../../../src/numerics/quadratic-form.ts';

const SIZE = 7;
const number = fc.double({ min: -10, max: 10, noNaN: true });
const vector = fc
  .array(fc.oneof(fc.constant(0), number), { minLength: SIZE, maxLength: SIZE })
  .map((values) => Float64Array.from(values));
const symmetric = fc.array(number, { minLength: SIZE * SIZE, maxLength: SIZE * SIZE }).map((values) => {
  const at = (i: number, j: number) => values[Math.max(i, j) * SIZE + Math.min(i, j)]!;
  return Float64Array.from({ length: SIZE * SIZE }, (_, k) => at(Math.floor(k / SIZE), k % SIZE));
});

/** By its definition. */
const naive = (a: Float64Array, m: Float64Array) =>
  a.reduce((sum, ai, i) => sum + a.reduce((row, aj, j) => row + ai * m[i * SIZE + j]! * aj, 0), 0);

it("a' M a from the lower half is that from the whole matrix, zeros in a or not", () => {
  fc.assert(
    fc.property(symmetric, vector, (m, a) => {
      expect(quadratic(a, m)).toBeCloseTo(naive(a, m), 8);
      expect(dot(a, symmetricTimes(m, a))).toBeCloseTo(naive(a, m), 8);
    }),
  );
});
