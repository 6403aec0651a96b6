import { describe, expect, it } from 'vitest';
import { studyFaults } from '../../generator/fault-study.ts';

// The first reeds of the held-out seeds of `npm run study:faults`, which has the settings and 500 of them.
const { clean, planted } = studyFaults(1000, 12);

describe('twelve generated reeds', () => {
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
