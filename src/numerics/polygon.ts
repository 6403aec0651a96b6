import { gaussLegendre } from './gauss-legendre.ts';

export type Point = readonly [number, number];

/** Twice the signed area: positive when the corners go round against the clock. */
function doubleArea(corners: readonly Point[]): number {
  return corners.reduce((sum, [x, y], i) => {
    const [nextX, nextY] = corners[(i + 1) % corners.length]!;
    return sum + x * nextY - nextX * y;
  }, 0);
}

/** Part of a polygon with `axis` coordinate on one side of a limit: `sign` 1 keeps what lies above it. */
function clipHalfPlane(corners: readonly Point[], axis: 0 | 1, limit: number, sign: 1 | -1): Point[] {
  const kept: Point[] = [];
  corners.forEach((from, i) => {
    const to = corners[(i + 1) % corners.length]!;
    const a = sign * (from[axis] - limit);
    const b = sign * (to[axis] - limit);
    if (a >= 0) kept.push(from);
    if (a * b < 0) {
      const s = a / (a - b);
      const other = from[1 - axis]! + s * (to[1 - axis]! - from[1 - axis]!);
      kept.push(axis === 0 ? [limit, other] : [other, limit]);
    }
  });
  return kept;
}

/**
 * A polygon clipped to a rectangle. The result of a polygon that is not convex may hold edges that run back over
 * themselves; signed integrals over it are right all the same.
 *
 * Source: Sutherland & Hodgman 1974.
 */
export function clipToRectangle(
  corners: readonly Point[],
  [x0, x1]: readonly [number, number],
  [y0, y1]: readonly [number, number],
): Point[] {
  let clipped = clipHalfPlane(corners, 0, x0, 1);
  clipped = clipHalfPlane(clipped, 0, x1, -1);
  clipped = clipHalfPlane(clipped, 1, y0, 1);
  return clipHalfPlane(clipped, 1, y1, -1);
}

/** A place to evaluate an integrand, and the area it stands for. */
export interface AreaNode {
  readonly x: number;
  readonly y: number;
  readonly area: number;
}

const RULE = gaussLegendre(5);

/**
 * Nodes and areas with which a sum over nodes is the integral over the polygon, exact for polynomials of total degree
 * up to 8: a fan of signed triangles, each with a collapsed product Gauss rule. Orientation does not matter.
 *
 * @param corners In order, not closed; fewer than three give no nodes.
 */
export function polygonNodes(corners: readonly Point[]): AreaNode[] {
  const sign = Math.sign(doubleArea(corners));
  if (corners.length < 3 || sign === 0) return [];
  const [apex] = corners as readonly [Point, ...Point[]];
  const nodes: AreaNode[] = [];
  for (let i = 1; i + 1 < corners.length; i++) {
    const b = corners[i]!;
    const c = corners[i + 1]!;
    const double = sign * ((b[0] - apex[0]) * (c[1] - apex[1]) - (c[0] - apex[0]) * (b[1] - apex[1]));
    if (double === 0) continue;
    RULE.nodes.forEach((r, k) =>
      RULE.nodes.forEach((s, m) => {
        const toB = r * (1 - s);
        const toC = r * s;
        nodes.push({
          x: apex[0] + toB * (b[0] - apex[0]) + toC * (c[0] - apex[0]),
          y: apex[1] + toB * (b[1] - apex[1]) + toC * (c[1] - apex[1]),
          area: double * r * RULE.weights[k]! * RULE.weights[m]!,
        });
      }),
    );
  }
  return nodes;
}
