import { describe, expect, it } from 'vitest';
import { studyFaults } from '../../generator/fault-study.ts';

// Not held out: thresholds were chosen on these reeds too. `npm run study:faults` studies 500 that were not looked at, with
// a fault of every kind; `judge-pass.test.ts` plants each in a reed by a formula.

describe('thirty generated reeds', () => {
  const { clean } = studyFaults(1012, 30, []);

  it('have one thing named in their sound passes at most', () => {
    expect(clean.cases).toBeGreaterThan(50);
    expect(clean.named).toBeLessThanOrEqual(1);
  });
});

describe('fourteen of them', () => {
  const { planted } = studyFaults(1012, 14, ['clip', 'zero', 'shifted']);

  it.each(['clip', 'zero', 'shifted'] as const)('has 13 of 14 found: %s', (kind) => {
    const { all } = planted[kind]!;
    expect(all.cases).toBe(14);
    expect(all.found).toBeGreaterThanOrEqual(13);
  });
});
