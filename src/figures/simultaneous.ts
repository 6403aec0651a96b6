import { normalUpperTail } from '../numerics/normal-distribution.ts';
import { rootBetween } from '../numerics/root.ts';

/**
 * How far a field of standard normal values turns over a line or a map, as an angle: places whose values hang together by a
 * correlation r lie arccos(r) apart.
 */
export interface TubeConstants {
  /** Length of a line; half the length of a map's border. */
  readonly length: number;
  /** Area of a map; 0 for a line. */
  readonly area: number;
}

/** Standard uncertainties beyond which no factor is sought: there is less than 1 in 10^14 left. */
const REACH = 8;
const TOLERANCE = 1e-9;

/**
 * The probability that a standard normal field leaves the band of +-factor somewhere: exact for a single place and as the
 * probability grows small, and a little too large before.
 *
 * Source: the tube formula of Hotelling 1939 and Weyl 1939 as used for bands by Sun & Loader 1994,
 * doi 10.1214/aos/1176325631; the same as the expected Euler characteristic of Adler & Taylor 2007.
 */
export function leavesBand({ length, area }: TubeConstants, factor: number): number {
  const density = Math.exp(-0.5 * factor * factor);
  const two = 2 * Math.PI;
  return (
    2 *
    (normalUpperTail(factor) + (length * density) / two + (area * factor * density) / (two * Math.sqrt(two)))
  );
}

/**
 * Standard uncertainties that hold everywhere at once with a given probability.
 *
 * @param level Between 0.5 and 1.
 */
export function simultaneousFactor(turning: TubeConstants, level: number): number {
  return rootBetween((factor) => 1 - level - leavesBand(turning, factor), 1, REACH, TOLERANCE);
}

/** Covariances of a figure's doubts between neighbours on a grid of `rows` x `columns` places, row by row. */
export interface NearCovariances {
  readonly rows: number;
  readonly columns: number;
  /** Of each place with itself. */
  readonly variance: Float64Array;
  /** With the next place of its row. */
  readonly over: Float64Array;
  /** With the same place of the next row. */
  readonly down: Float64Array;
  /** With the next place of the next row. */
  readonly slant: Float64Array;
  /** Of the next place of its row with the same place of the next row. */
  readonly cross: Float64Array;
}

/**
 * How far a figure's doubt turns over a grid, or over those of its cells that have all corners inside. Where it is surely
 * nothing, as on the line of a mirror, it does not.
 *
 * @param isInside Of each place, row by row; of a line all places count.
 */
export function turningOf(near: NearCovariances, isInside?: ArrayLike<boolean>): TubeConstants {
  const { rows, columns } = near;
  if (rows === 1 || columns === 1) return { length: turningAlong(near), area: 0 };
  const inside = (at: number) => isInside === undefined || isInside[at]!;
  const isCell = (i: number, j: number) => {
    const at = i * columns + j;
    const isOnGrid = i >= 0 && i < rows - 1 && j >= 0 && j < columns - 1;
    return isOnGrid && inside(at) && inside(at + 1) && inside(at + columns) && inside(at + columns + 1);
  };
  let [border, area] = [0, 0];
  for (let i = 0; i < rows; i++)
    for (let j = 0; j < columns; j++) {
      const at = i * columns + j;
      const isOwn = isCell(i, j);
      if (isOwn) area += cellArea(near, at);
      if (isOwn !== isCell(i - 1, j)) border += angle(near, near.over, at, at, at + 1);
      if (isOwn !== isCell(i, j - 1)) border += angle(near, near.down, at, at, at + columns);
    }
  return { length: border / 2, area };
}

/** Along a row of places, or a column of them: both sides of a line are its border. */
function turningAlong(near: NearCovariances): number {
  const [of, step] = near.rows === 1 ? [near.over, 1] : [near.down, near.columns];
  let length = 0;
  for (let at = 0; at + step < near.variance.length; at += step) length += angle(near, of, at, at, at + step);
  return length;
}

/** Angle between the values of two places. */
function angle({ variance }: NearCovariances, of: Float64Array, at: number, one: number, other: number) {
  const product = variance[one]! * variance[other]!;
  if (!(product > 0)) return 0;
  return Math.acos(Math.min(1, Math.max(-1, of[at]! / Math.sqrt(product))));
}

/**
 * Area of a cell from its four sides and two diagonals, squared: (4 p q - (b + d - a - c)^2) / 16 is the square of a
 * quadrilateral's area, p and q its diagonals.
 *
 * Source: Bretschneider 1842.
 */
function cellArea(near: NearCovariances, at: number): number {
  const { columns } = near;
  const below = at + columns;
  const square = (of: Float64Array, place: number, one: number, other: number) =>
    angle(near, of, place, one, other) ** 2;
  const a = square(near.over, at, at, at + 1);
  const b = square(near.down, at + 1, at + 1, below + 1);
  const c = square(near.over, below, below, below + 1);
  const d = square(near.down, at, at, below);
  const p = square(near.slant, at, at, below + 1);
  const q = square(near.cross, at, at + 1, below);
  return Math.sqrt(Math.max(0, 4 * p * q - (b + d - a - c) ** 2)) / 4;
}
