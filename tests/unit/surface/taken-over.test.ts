import { describe, expect, it } from 'vitest';
import { scenarioReed } from '../../scenario-reed.ts';

const model = scenarioReed('M-142').model!;

describe.each([0, 1])('what went over several passes, from pass %i', (from) => {
  const whole = model.taken('B', from, 3);
  const parts = [0, 1, 2].slice(from).map((before) => model.taken('B', before, before + 1));

  it('is the sum of what went in each', () => {
    whole.mean.forEach((value, m) =>
      expect(value).toBeCloseTo(
        parts.reduce((sum, { mean }) => sum + mean[m]!, 0),
        10,
      ),
    );
    expect(Math.max(...whole.mean)).toBeGreaterThan(0.02);
  });

  it('has a covariance of as many coefficients, symmetric, nowhere below zero', () => {
    const n = whole.mean.length;
    expect(whole.covariance).toHaveLength(n * n);
    for (let i = 0; i < n; i++) {
      expect(whole.covariance[i * n + i]!).toBeGreaterThanOrEqual(0);
      for (let j = 0; j < i; j++)
        expect(whole.covariance[i * n + j]!).toBeCloseTo(whole.covariance[j * n + i]!, 12);
    }
  });
});
