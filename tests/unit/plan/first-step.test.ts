import { describe, expect, it } from 'vitest';
import { firstStep, sayFirstStep } from '../../../src/plan/first-step.ts';
import { sayAfter } from '../../../src/plan/say-step.ts';
import { scenarioReed } from '../../scenario-reed.ts';

const m142 = { benched: scenarioReed('M-142'), pass: 3 };
const k117 = { benched: scenarioReed('K-117'), pass: 0 };

describe('the first step towards a favourite', () => {
  const step = firstStep(m142, k117);

  it('is the blend of M-142, on both blades: its blend stands too near the tip', () => {
    expect(step).toMatchObject({ zone: 'blend', blades: ['A', 'B'], side: 'both' });
    expect(step!.takeMm).toBeLessThanOrEqual(step!.excessMm / 2 + 1e-12);
  });

  it('is said with its place, its amount, what it is half of, and what to do then', () => {
    expect(sayFirstStep(step, 'K-117', { unit: 'hundredths', decimal: 'point' })).toMatch(
      /^Blend, both blades, from \d\.\d to \d\.\d\smm: take \d(\.5)? of the \d(\.5)? ±\d(\.5)? hundredths above K-117\. Then read/,
    );
  });

  it('ends in a stop where no more would be left than its doubt', () => {
    const wide = { ...step!, stopAndRead: true, excessMm: 0.02, takeMm: 0.01, uMm: 0.0077 };
    expect(sayAfter(wide, { unit: 'hundredths', decimal: 'point' })).toBe(
      'Then stop and read before anything else: what would be left, 1, is no more than its doubt of 1.5. Then play.',
    );
  });

  it('is to play where nothing measurable may be taken', () => {
    expect(firstStep(k117, k117)).toBeUndefined();
    expect(sayFirstStep(undefined, 'K-117', { unit: 'mm', decimal: 'comma' })).toBe(
      'Nothing measurable to take. Play it.',
    );
  });
});
