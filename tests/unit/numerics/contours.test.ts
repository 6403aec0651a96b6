import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  cellsOf,
  contourLines,
  contourRings,
  type Field,
  type GridLine,
} from '../../../src/numerics/contours.ts';

const contour = (field: Field, level: number) => ({
  lines: contourLines(cellsOf(field), level),
  rings: contourRings(cellsOf(field), level),
});

const NX = 7;
const NY = 6;
const cell = fc.oneof(
  { weight: 9, arbitrary: fc.double({ min: 0, max: 1, noNaN: true }) },
  { weight: 1, arbitrary: fc.constant(NaN) },
);
const fields = fc
  .array(cell, { minLength: NX * NY, maxLength: NX * NY })
  .map((values): Field => ({ nx: NX, ny: NY, values }));
const levels = fc.double({ min: 0.05, max: 0.95, noNaN: true });

function points(line: GridLine): [number, number][] {
  return Array.from({ length: line.length / 2 }, (_, k) => [line[2 * k]!, line[2 * k + 1]!]);
}

/** Signed area, shoelace formula. */
function area(ring: GridLine): number {
  const corners = points(ring);
  return corners.reduce((sum, [x, y], k) => {
    const [nextX, nextY] = corners[(k + 1) % corners.length]!;
    return sum + (x * nextY - nextX * y) / 2;
  }, 0);
}

const total = (rings: readonly GridLine[]) => rings.reduce((sum, ring) => sum + area(ring), 0);
const isClosed = (line: GridLine) => line[0] === line.at(-2) && line[1] === line.at(-1);

/** The value along a grid line, by straight interpolation. */
function valueAt({ nx, values }: Field, x: number, y: number): number {
  const [i, j] = [Math.floor(x), Math.floor(y)];
  const from = values[j * nx + i]!;
  if (x > i) return from + (x - i) * (values[j * nx + i + 1]! - from);
  if (y > j) return from + (y - j) * (values[(j + 1) * nx + i]! - from);
  return from;
}

function liveCells({ nx, ny, values }: Field): number {
  let count = 0;
  for (let j = 0; j + 1 < ny; j++)
    for (let i = 0; i + 1 < nx; i++)
      if ([0, 1, nx, nx + 1].every((step) => !Number.isNaN(values[j * nx + i + step]!))) count++;
  return count;
}

describe('contour', () => {
  it('cuts a slope with one straight line from border to border', () => {
    const slope: Field = { nx: 3, ny: 2, values: [0, 1, 2, 0, 1, 2] };
    const { lines, rings } = contour(slope, 0.5);
    expect(lines).toHaveLength(1);
    expect(points(lines[0]!).sort()).toEqual([
      [0.5, 0],
      [0.5, 1],
    ]);
    expect(total(rings)).toBeCloseTo(1.5, 12);
  });

  it('closes a line around a peak and leaves a hole around a pit', () => {
    const peak: Field = { nx: 3, ny: 3, values: [0, 0, 0, 0, 1, 0, 0, 0, 0] };
    expect(contour(peak, 0.5).lines.map(isClosed)).toEqual([true]);
    // A square with corners half a cell from the middle node: 2 * 0.5^2.
    expect(total(contour(peak, 0.5).rings)).toBeCloseTo(0.5, 12);
    const pit: Field = { ...peak, values: [1, 1, 1, 1, 0, 1, 1, 1, 1] };
    expect(total(contour(pit, 0.5).rings)).toBeCloseTo(4 - 0.5, 12);
  });

  it('lets the mean of a saddle decide whether its two hills meet', () => {
    const saddle = (low: number): Field => ({ nx: 2, ny: 2, values: [1, low, low, 1] });
    expect(contour(saddle(0.4), 0.5).rings).toHaveLength(1);
    expect(contour(saddle(-0.4), 0.5).rings).toHaveLength(2);
  });

  it('gives the outline of the whole field below its least value', () => {
    fc.assert(
      fc.property(fields, (field) => {
        expect(total(contour(field, -Infinity).rings)).toBeCloseTo(liveCells(field), 9);
      }),
    );
  });

  it('puts every inner point on its level', () => {
    fc.assert(
      fc.property(fields, levels, (field, level) => {
        for (const line of contour(field, level).lines)
          for (const [x, y] of points(line))
            expect(Math.abs(valueAt(field, x, y) - level)).toBeLessThan(1e-12);
      }),
    );
  });

  it('closes every ring, and shares the field between what is above and what is below', () => {
    fc.assert(
      fc.property(fields, levels, (field, level) => {
        const { rings } = contour(field, level);
        expect(rings.every(isClosed)).toBe(true);
        const turned: Field = { ...field, values: Array.from(field.values, (value) => -value) };
        // Values equal to the level lie in both, with no area of their own.
        expect(total(rings) + total(contour(turned, -level).rings)).toBeCloseTo(liveCells(field), 9);
      }),
    );
  });

  it('nests: a higher level never covers more', () => {
    fc.assert(
      fc.property(fields, levels, levels, (field, one, other) => {
        const [low, high] = [Math.min(one, other), Math.max(one, other)];
        expect(total(contour(field, high).rings)).toBeLessThanOrEqual(
          total(contour(field, low).rings) + 1e-9,
        );
      }),
    );
  });
});
