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

  it('names at most three differences from the tip, all beyond their doubt, that of the deed among them', () => {
    const { differences, deed } = lessonOf(pupil, favourite);
    expect(differences.length).toBeGreaterThan(0);
    expect(differences.length).toBeLessThanOrEqual(3);
    for (const { difference } of differences)
      expect(Math.abs(difference.valueMm)).toBeGreaterThan(1.96 * difference.uMm);
    expect(differences.map(({ name }) => name)).toContain(deed!.zone);
    const starts = differences.map(({ ownMm: [from] }) => from);
    expect(starts).toEqual([...starts].sort((a, b) => a - b));
    // The style's own outline: the blend begins 3.7 mm from the tip at its middle and ends 6 mm from it at its edges.
    const blend = differences.find(({ name }) => name === 'blend')!;
    expect(blend.ownMm).toEqual([3.7, 6]);
    // No sure zone that is left out differs by more than those shown, the deed's apart.
    const shown = new Set(differences.map(({ name }) => name));
    const least = Math.min(
      ...differences
        .filter(({ name }) => name !== deed!.zone)
        .map(({ difference: { valueMm } }) => Math.abs(valueMm)),
    );
    for (const { name, difference } of compared.zones)
      if (!shown.has(name) && Math.abs(difference.valueMm) > 1.96 * difference.uMm)
        expect(Math.abs(difference.valueMm)).toBeLessThanOrEqual(least);
  });

  it('has nothing to touch on the example itself, and no difference', () => {
    const { touches, differences, deed } = lessonOf(favourite, favourite);
    expect([touches, differences, deed]).toEqual([[], [], undefined]);
  });
});
