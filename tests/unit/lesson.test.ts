import { describe, expect, it } from 'vitest';
import { lessonOf } from '../../src/plan/lesson.ts';
import { scenarioReed } from '../scenario-reed.ts';

const favourite = { benched: scenarioReed('K-117'), pass: 0 };
const pupil = { benched: scenarioReed('M-142'), pass: 3 };

describe('a lesson', () => {
  const { touches, compared } = lessonOf(pupil, favourite);

  it('names at most three places, each at most half of what is too much, the tip last', () => {
    expect(touches.length).toBeGreaterThan(0);
    expect(touches.length).toBeLessThanOrEqual(3);
    for (const { takeMm, excess } of touches) expect(takeMm).toBeLessThanOrEqual(excess.valueMm / 2 + 1e-12);
    expect(touches.slice(0, -1).map(({ zone }) => zone)).not.toContain('tip');
  });

  it('draws each place where its zone lies, on the side that is meant', () => {
    for (const { parts, side, stretch } of touches) {
      const corners = parts.flatMap(({ outlines }) => outlines.flat());
      expect(Math.min(...corners.map(([mm]) => mm))).toBeCloseTo(stretch[0], 9);
      expect(Math.max(...corners.map(([mm]) => mm))).toBeCloseTo(stretch[1], 9);
      if (side !== 'both') {
        const balance = corners.reduce((sum, [, across]) => sum + across, 0);
        expect(Math.sign(balance)).toBe(side === 'left' ? -1 : 1);
      }
    }
  });

  it('sets the two reeds beside each other with their doubts', () => {
    const blend = compared.zones.find(({ name }) => name === 'blend')!;
    // The invented reeds differ by 0.035 mm at the blend, by the means of their readings there.
    expect(Math.abs(blend.difference.valueMm - 0.035)).toBeLessThan(0.012);
    expect(blend.difference.uMm).toBeGreaterThan(0);
  });

  it('has nothing to touch on the example itself', () => {
    expect(lessonOf(favourite, favourite).touches).toEqual([]);
  });
});
