import { describe, expect, it } from 'vitest';
import { interpolateGrid } from '../../src/surface/interpolating-surface.ts';
import blade from './data/interpolate-blade.json' with { type: 'json' };
import small from './data/interpolate-small.json' with { type: 'json' };
import volcano from './data/interpolate-volcano.json' with { type: 'json' };

// Made with SciPy's FITPACK interface and an own tridiagonal solver; see each file's `software`. The volcano data are
// those published with R; the rest are invented.
interface Table {
  t: number[][];
  dt_dy: number[][];
  dt_du: number[][];
  d2t_dy2: number[][];
  d2t_dydu: number[][];
  d2t_du2: number[][];
}
interface Case {
  inputs: { y: number[]; u: number[]; t: number[][]; evalY: number[]; evalU: number[] };
  outputs: { notAKnot: Table; natural: Table };
}

const ORDERS = [
  ['t', 0, 0, 1e-10],
  ['dt_dy', 1, 0, 1e-9],
  ['dt_du', 0, 1, 1e-9],
  ['d2t_dy2', 2, 0, 1e-8],
  ['d2t_dydu', 1, 1, 1e-8],
  ['d2t_du2', 0, 2, 1e-8],
] as const;

const cases = [blade, volcano, small].flatMap((file) => {
  const { id, cases: inner } = file as unknown as { id: string; cases?: ({ id: string } & Case)[] };
  return inner
    ? inner.map((one) => [`${id} ${one.id}`, one] as const)
    : [[id, file as unknown as Case] as const];
});

describe.each(cases)('%s', (_, { inputs, outputs }) => {
  it.each([
    ['not-a-knot', outputs.notAKnot],
    ['natural', outputs.natural],
  ] as const)('agrees with the reference, %s', (ends, table) => {
    const surface = interpolateGrid({ ys: inputs.y, us: inputs.u, values: inputs.t }, ends);
    for (const [name, dy, du, tolerance] of ORDERS) {
      const largest = Math.max(...table[name].flat().map(Math.abs));
      inputs.evalY.forEach((y, i) =>
        inputs.evalU.forEach((u, j) =>
          expect(Math.abs(surface(y, u, dy, du) - table[name][i]![j]!)).toBeLessThanOrEqual(
            tolerance * largest,
          ),
        ),
      );
    }
  });
});

it('goes through every value, and refuses a grid with a hole', () => {
  const grid = {
    ys: [0, 1, 3],
    us: [-1, 0, 1],
    values: [
      [1, 2, 3],
      [4, 5, 7],
      [1, 0, 1],
    ],
  };
  for (const ends of ['not-a-knot', 'natural'] as const) {
    const surface = interpolateGrid(grid, ends);
    grid.ys.forEach((y, i) =>
      grid.us.forEach((u, j) => expect(surface(y, u)).toBeCloseTo(grid.values[i]![j]!, 12)),
    );
  }
  expect(() =>
    interpolateGrid(
      {
        ...grid,
        values: [
          [1, 2, 3],
          [4, Number.NaN, 7],
          [1, 0, 1],
        ],
      },
      'natural',
    ),
  ).toThrow('values[1]: must hold 3 finite values');
});
