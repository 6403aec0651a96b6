/**
 * Uniform cubic B-splines: `count` functions on the domain from `from` to `to`, on knots that run on beyond both ends.
 *
 * Source: Eilers & Marx 1996, doi 10.1214/ss/1038425655.
 */
export interface UniformBSpline {
  readonly from: number;
  readonly to: number;
  /** Number of functions, 4 or more; the domain has count - 3 equal intervals. */
  readonly count: number;
}

/** The four functions that are not zero at a place: `weights[k]` belongs to function `first + k`. */
export interface LocalBasis {
  readonly first: number;
  readonly weights: readonly [number, number, number, number];
}

/** Length of one interval between knots. */
export function knotSpacing({ from, to, count }: UniformBSpline): number {
  return (to - from) / (count - 3);
}

/**
 * Values or derivatives of the functions at x. Outside the domain the outermost polynomials go on. Uses only
 * + - x and / so that every engine gives the same bits.
 *
 * @param derivative Order, 0 to 2.
 * @throws RangeError for fewer than 4 functions or an empty domain.
 */
export function basisAt(basis: UniformBSpline, x: number, derivative = 0): LocalBasis {
  if (!(basis.count >= 4 && basis.to > basis.from)) {
    throw new RangeError(
      `basis: must have 4 functions or more on a domain that is not empty, got ${basis.count}`,
    );
  }
  const h = knotSpacing(basis);
  const scaled = (x - basis.from) / h;
  const first = Math.min(Math.max(Math.floor(scaled), 0), basis.count - 4);
  const t = scaled - first;
  return { first, weights: segment(t, h, derivative) };
}

function segment(t: number, h: number, derivative: number): LocalBasis['weights'] {
  const r = 1 - t;
  if (derivative === 0) {
    return [
      (r * r * r) / 6,
      (3 * t * t * t - 6 * t * t + 4) / 6,
      (3 * r * r * r - 6 * r * r + 4) / 6,
      (t * t * t) / 6,
    ];
  }
  if (derivative === 1) {
    return [
      -(r * r) / (2 * h),
      (3 * t * t - 4 * t) / (2 * h),
      -(3 * r * r - 4 * r) / (2 * h),
      (t * t) / (2 * h),
    ];
  }
  if (derivative === 2) return [r / (h * h), (3 * t - 2) / (h * h), (3 * r - 2) / (h * h), t / (h * h)];
  throw new RangeError(`derivative: must be 0, 1 or 2, got ${derivative}`);
}
