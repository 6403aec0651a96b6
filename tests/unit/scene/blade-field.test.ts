import { describe, expect, it } from 'vitest';
import { BladeField } from '../../../components/scene/blade-field.ts';
import { BladeSurface } from '../../../components/scene/blade-surface.ts';

const ysMm = Array.from({ length: 49 }, (_, j) => j / 2);
const us = Array.from({ length: 21 }, (_, i) => -1 + i / 10);
function grid(value: (y: number, u: number) => number) {
  return {
    ysMm,
    us,
    halfWidthMm: ysMm.map((y) => 3.5 - 0.05 * y),
    valuesMm: ysMm.flatMap((y) => us.map((u) => value(y, u))),
  };
}
const blade = (value: (y: number, u: number) => number) => ({
  ...grid(value),
  blade: 'A' as const,
  bladeLengthMm: 24,
  zones: [],
  marks: [],
});

describe('a blade as a smooth field', () => {
  it('goes through the grid and is exact for a plane between its nodes', () => {
    const field = new BladeField(grid((y, u) => 0.08 + 0.02 * y + 0.03 * u));
    for (const [y, u] of [
      [3, 0.2],
      [3.25, 0.05],
      [11.1, -0.63],
    ] as const)
      expect(field.at(y, u)).toBeCloseTo(0.08 + 0.02 * y + 0.03 * u, 12);
  });

  it('says where it was read, and leads over into bark where not', () => {
    const field = new BladeField(grid((y) => (y <= 20 ? 0.4 : NaN)));
    expect(field.readAt(19, 0)).toBe(1);
    expect(field.readAt(20.25, 0)).toBeCloseTo(0.5, 12);
    expect(field.readAt(21, 0)).toBe(0);
    // 0.4 + 0.3 of the way to bark, 0.57 mm: by hand.
    expect(field.at(20.5, 0)).toBeCloseTo(0.451, 9);
  });
});

describe('ripples', () => {
  it('are nothing on a plane, and the depth of a dig in its middle', () => {
    const plane = new BladeSurface(
      blade((y, u) => 0.1 + 0.02 * y + 0.05 * u),
      4.5,
    );
    expect(plane.rippleMm(9, 0.3)).toBeCloseTo(0, 12);
    // A dig of a hundredth as narrow as one node: all its surroundings are a hundredth higher.
    const dug = new BladeSurface(
      blade((y, u) => (y === 10 && u === 0 ? 0.39 : 0.4)),
      4.5,
    );
    expect(dug.rippleMm(10, 0)).toBeLessThan(-0.009);
  });

  it('inside their doubt are not shaded', () => {
    const dug = blade((y, u) => (y === 10 && u === 0 ? 0.39 : 0.4));
    const doubtful = (doubtMm: number) =>
      new BladeSurface({ ...dug, rippleDoubtMm: dug.valuesMm.map(() => doubtMm) }, 4.5);
    expect(doubtful(0.02).shadeOfRipple(10, 0)).toBe(0);
    expect(doubtful(0.002).shadeOfRipple(10, 0)).toBe(-1);
  });
});
