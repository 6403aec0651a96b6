import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { bladeSolid, cutFace, pointOnBark, type Faces } from '../../../components/scene/blade-solid.ts';

const LENGTH_MM = 20;
/** An invented blade with a slope, a hump and a taper. */
const thicknessMm = (y: number, u: number) =>
  0.06 + 0.5 * (1 - Math.exp(-y / 6)) - 0.1 * u * u + 0.02 * Math.sin(y);
const halfWidthMm = (y: number) => 3.5 - 0.05 * y - 0.001 * y * y;

function grid(along: number, across: number, readTo = LENGTH_MM) {
  const ysMm = Array.from({ length: along }, (_, j) => (LENGTH_MM * j) / (along - 1));
  const us = Array.from({ length: across }, (_, i) => -1 + (2 * i) / (across - 1));
  return {
    ysMm,
    us,
    halfWidthMm: ysMm.map(halfWidthMm),
    valuesMm: ysMm.flatMap((y) => us.map((u) => (y <= readTo ? thicknessMm(y, u) : NaN))),
  };
}

/** Signed volume of a closed surface: tetrahedra to the origin (divergence theorem). */
function volume(parts: readonly Faces[]): number {
  let sum = 0;
  for (const { positions, indices } of parts)
    for (let k = 0; k < indices.length; k += 3) {
      const [a, b, c] = [0, 1, 2].map((step) => {
        const at = 3 * indices[k + step]!;
        return [positions[at]!, positions[at + 1]!, positions[at + 2]!] as const;
      });
      const [ax, ay, az] = a!;
      const [bx, by, bz] = b!;
      const [cx, cy, cz] = c!;
      sum += (ax * (by * cz - bz * cy) + ay * (bz * cx - bx * cz) + az * (bx * cy - by * cx)) / 6;
    }
  return sum;
}

/** The integral of thickness over the blade's area, by the midpoint rule on a grid far finer than any mesh here. */
function integral(readTo = LENGTH_MM): number {
  const [ny, nu] = [2000, 400];
  let sum = 0;
  for (let j = 0; j < ny; j++) {
    const y = ((j + 0.5) * readTo) / ny;
    for (let i = 0; i < nu; i++) sum += thicknessMm(y, -1 + (2 * i + 1) / nu) * halfWidthMm(y);
  }
  return (sum * (2 * readTo)) / (ny * nu);
}

/** Each edge of a closed surface is used once in each direction. */
function isClosed(parts: readonly Faces[]): boolean {
  const edges = new Map<string, number>();
  const corner = (positions: Float32Array, vertex: number) =>
    positions.slice(3 * vertex, 3 * vertex + 3).join(' ');
  for (const { positions, indices } of parts)
    for (let k = 0; k < indices.length; k++) {
      const from = corner(positions, indices[k]!);
      const to = corner(positions, indices[k % 3 === 2 ? k - 2 : k + 1]!);
      edges.set(`${from}|${to}`, (edges.get(`${from}|${to}`) ?? 0) + 1);
    }
  return [...edges].every(([edge, count]) => edges.get(edge.split('|').reverse().join('|')) === count);
}

describe('bladeSolid', () => {
  it.each([
    { lay: 'flat', exaggeration: 1 },
    { lay: 'flat', exaggeration: 8 },
    { lay: 'arched', exaggeration: 8 },
  ] as const)('has the volume of the surface times the exaggeration, $lay, $exaggeration x', (laying) => {
    const { bark, body } = bladeSolid(grid(121, 61), laying);
    expect(Math.abs(volume([bark, body]) / (laying.exaggeration * integral()) - 1)).toBeLessThan(1e-3);
  });

  it('is closed, with no opening between bark, walls and underside', () => {
    const { bark, body } = bladeSolid(grid(9, 7), { lay: 'arched', exaggeration: 8 });
    expect(isClosed([bark, body])).toBe(true);
  });

  it('ends where the readings end', () => {
    const { bark, body } = bladeSolid(grid(121, 61, 15), { lay: 'flat', exaggeration: 1 });
    expect(Math.abs(volume([bark, body]) / integral(15) - 1)).toBeLessThan(1e-3);
    expect(isClosed([bark, body])).toBe(true);
    const deepest = bark.positions.filter((_, k) => k % 3 === 1).reduce((least, y) => Math.min(least, y));
    expect(deepest).toBe(-15);
  });

  it('stands as high as the thickness times the exaggeration, and carries the thickness', () => {
    const { bark } = bladeSolid(grid(21, 11), { lay: 'flat', exaggeration: 8 });
    bark.thicknessMm.forEach((thickness, vertex) =>
      expect(bark.positions[3 * vertex + 2]! / 8).toBeCloseTo(thickness, 6),
    );
  });
});

describe('pointOnBark', () => {
  const laying = { lay: 'flat', exaggeration: 8 } as const;

  it('stands on the surface and knows nothing beyond it', () => {
    const blade = grid(21, 11, 15);
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 15 }), fc.integer({ min: -5, max: 5 }), (y, column) => {
        const u = column / 5;
        const [x, , z] = pointOnBark(blade, laying, { fromTipMm: y, across: u })!;
        expect(x).toBeCloseTo(u * halfWidthMm(y), 9);
        expect(z).toBeCloseTo(8 * thicknessMm(y, u), 9);
      }),
    );
    expect(pointOnBark(blade, laying, { fromTipMm: 18, across: 0 })).toBeUndefined();
  });
});

describe('cutFace', () => {
  it('has the area of the section', () => {
    const { positions, indices } = cutFace(grid(121, 61), { lay: 'arched', exaggeration: 8 }, 10);
    let area = 0;
    for (let k = 0; k < indices.length; k += 3) {
      const [a, b, c] = [0, 1, 2].map((step) => 3 * indices[k + step]!);
      const [x, z] = [(v: number) => positions[v]!, (v: number) => positions[v + 2]!];
      area += Math.abs((x(b!) - x(a!)) * (z(c!) - z(a!)) - (x(c!) - x(a!)) * (z(b!) - z(a!))) / 2;
    }
    // Simpson's rule is exact for the parabola across.
    const section = (thicknessMm(10, -1) + 4 * thicknessMm(10, 0) + thicknessMm(10, 1)) / 6;
    expect(Math.abs(area / (8 * section * 2 * halfWidthMm(10)) - 1)).toBeLessThan(1e-3);
  });
});
