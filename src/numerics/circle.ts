/** A point of a plane, any one unit. */
export type Point = readonly [x: number, y: number];

export interface Circle {
  readonly centre: Point;
  readonly radius: number;
}

/**
 * The circle through three points: its centre is where the perpendicular bisectors meet.
 *
 * @throws RangeError when the points lie on one line.
 */
export function circleThrough([ax, ay]: Point, [bx, by]: Point, [cx, cy]: Point): Circle {
  const [ux, uy] = [bx - ax, by - ay];
  const [vx, vy] = [cx - ax, cy - ay];
  const twiceCross = 2 * (ux * vy - uy * vx);
  const [uu, vv] = [ux * ux + uy * uy, vx * vx + vy * vy];
  if (!(Math.abs(twiceCross) > 1e-12 * Math.sqrt(uu * vv))) {
    throw new RangeError('points: must not lie on one line');
  }
  const x = (vy * uu - uy * vv) / twiceCross;
  const y = (ux * vv - vx * uu) / twiceCross;
  return { centre: [ax + x, ay + y], radius: Math.hypot(x, y) };
}
