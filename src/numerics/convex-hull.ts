type Point = readonly [x: number, y: number];

/** Twice the area of the triangle o, a, b; positive where it turns left. */
function turn([ox, oy]: Point, [ax, ay]: Point, [bx, by]: Point): number {
  return (ax - ox) * (by - oy) - (ay - oy) * (bx - ox);
}

/**
 * Corners of the convex hull of points, turning left, none on a straight side; two points where all lie on one line, one
 * where all are the same.
 *
 * Source: the monotone chain of Andrew 1979, doi 10.1016/0020-0190(79)90072-3.
 */
export function convexHull(points: readonly Point[]): Point[] {
  const sorted = [...points].sort(([ax, ay], [bx, by]) => ax - bx || ay - by);
  const lower = chain(sorted);
  const upper = chain(sorted.reverse());
  const hull = [...lower.slice(0, -1), ...upper.slice(0, -1)];
  return hull.length > 0 ? hull : sorted.slice(0, 1);
}

function chain(sorted: readonly Point[]): Point[] {
  const kept: Point[] = [];
  for (const point of sorted) {
    while (kept.length > 1 && turn(kept.at(-2)!, kept.at(-1)!, point) <= 0) kept.pop();
    if (kept.length !== 1 || kept[0]![0] !== point[0] || kept[0]![1] !== point[1]) kept.push(point);
  }
  return kept;
}

/** Whether a place lies in a hull or on its border, to within a distance. */
export function isInHull(hull: readonly Point[], place: Point, tolerance: number): boolean {
  if (hull.length < 3) return distanceToSegment(hull[0]!, hull.at(-1)!, place) <= tolerance;
  return hull.every((corner, i) => {
    const next = hull[(i + 1) % hull.length]!;
    return turn(corner, next, place) >= -tolerance * Math.hypot(next[0] - corner[0], next[1] - corner[1]);
  });
}

function distanceToSegment(a: Point, b: Point, [x, y]: Point): number {
  const [dx, dy] = [b[0] - a[0], b[1] - a[1]];
  const square = dx * dx + dy * dy;
  const share = square > 0 ? ((x - a[0]) * dx + (y - a[1]) * dy) / square : 0;
  const on = Math.min(1, Math.max(0, share));
  return Math.hypot(x - a[0] - on * dx, y - a[1] - on * dy);
}
