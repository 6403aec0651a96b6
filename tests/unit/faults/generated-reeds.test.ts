import { describe, expect, it } from 'vitest';
import { studyFaults } from '../../generator/fault-study.ts';

// Not held out: thresholds were chosen on these reeds too. `npm run study:faults` studies 500 that were not looked at.

describe('twelve generated reeds', () => {
  const { clean, planted } = studyFaults(1000, 12);

  it('has nothing named in them as they are', () => {
    expect(clean.cases).toBeGreaterThan(15);
    expect(clean.named).toBe(0);
  });

  it('has most planted faults found', () => {
    for (const { all } of Object.values(planted)) {
      expect(all.cases).toBeGreaterThan(3);
      expect(all.found / all.cases).toBeGreaterThan(0.6);
    }
  });
});

describe('thirty more', () => {
  const { clean, planted } = studyFaults(1012, 30, ['clip', 'zero', 'shifted']);

  it('has one thing named in their sound passes at most', () => {
    expect(clean.cases).toBeGreaterThan(50);
    expect(clean.named).toBeLessThanOrEqual(1);
  });

  it.each(['clip', 'zero', 'shifted'] as const)('has 28 of 30 found: %s', (kind) => {
    const { all } = planted[kind]!;
    expect(all.cases).toBe(30);
    expect(all.found).toBeGreaterThanOrEqual(28);
  });
});
