import { InputError } from '../../shared/errors.ts';

/** y = intercept + slope x with the full covariance of its two coefficients. */
export interface StraightLine {
  readonly intercept: number;
  readonly slope: number;
  readonly uIntercept: number;
  readonly uSlope: number;
  /** Covariance of intercept and slope. */
  readonly covariance: number;
  /** The point about which the line turns: the weighted mean of x, and the height there with its standard uncertainty. */
  readonly middle: Uncertain & { readonly x: number };
  /** Sum of squared residuals, each weighted by 1 / u_y^2 (1 where the noise is estimated). */
  readonly weightedRss: number;
  readonly dof: number;
}

/** A value and its standard uncertainty, in the unit of the value. */
export interface Uncertain {
  readonly value: number;
  readonly u: number;
}

/**
 * Straight line by weighted least squares.
 *
 * With `uY` the noise is known and the covariance follows from it; without, all y weigh the same and the noise is
 * estimated from the residuals.
 *
 * Source: ISO/TS 28037:2010 clause 6; JCGM 100:2008 example H.3 for the estimated noise.
 *
 * @param x Free of error, at least two different values.
 * @param y As many as x.
 * @param uY Standard uncertainties of y, positive, as many as x.
 * @throws InputError where lengths differ, values are not finite, x does not spread, or an unknown noise has fewer than
 * three points.
 */
export function fitStraightLine(
  x: readonly number[],
  y: readonly number[],
  uY?: readonly number[],
): StraightLine {
  checkPoints(x, y, uY);
  const w = x.map((_, i) => (uY ? 1 / uY[i]! ** 2 : 1));
  const total = sum(w);
  const xMean = sum(x.map((xi, i) => w[i]! * xi)) / total;
  const yMean = sum(y.map((yi, i) => w[i]! * yi)) / total;
  const sxx = sum(x.map((xi, i) => w[i]! * (xi - xMean) ** 2));
  const slope = sum(x.map((xi, i) => w[i]! * (xi - xMean) * (y[i]! - yMean))) / sxx;
  const intercept = yMean - slope * xMean;
  const weightedRss = sum(y.map((yi, i) => w[i]! * (yi - yMean - slope * (x[i]! - xMean)) ** 2));
  const dof = x.length - 2;
  const variance = uY ? 1 : weightedRss / dof;
  return {
    intercept,
    slope,
    uIntercept: Math.sqrt(variance * (1 / total + xMean ** 2 / sxx)),
    uSlope: Math.sqrt(variance / sxx),
    covariance: (-variance * xMean) / sxx,
    middle: { x: xMean, value: yMean, u: Math.sqrt(variance / total) },
    weightedRss,
    dof,
  };
}

/** The line's height at x, without the noise of a new reading; by the middle of the points, so that nothing cancels. */
export function predict({ middle, slope, uSlope }: StraightLine, x: number): Uncertain {
  const away = x - middle.x;
  return { value: middle.value + slope * away, u: Math.hypot(middle.u, uSlope * away) };
}

function checkPoints(x: readonly number[], y: readonly number[], uY?: readonly number[]): void {
  const least = uY ? 2 : 3;
  if (x.length < least) throw new InputError(`x: must be at least ${least} points, got ${x.length}`);
  for (const [name, values] of Object.entries({ y, uY })) {
    if (values && values.length !== x.length)
      throw new InputError(`${name}: must be ${x.length} values, got ${values.length}`);
  }
  for (const [name, values] of Object.entries({ x, y, uY }))
    values?.forEach((value, i) => {
      if (!Number.isFinite(value)) throw new InputError(`${name}[${i}]: must be finite, got ${value}`);
    });
  uY?.forEach((u, i) => {
    if (!(u > 0)) throw new InputError(`uY[${i}]: must be positive, got ${u}`);
  });
  if (x.every((value) => value === x[0])) throw new InputError('x: must spread, got one value only');
}

function sum(values: readonly number[]): number {
  return values.reduce((total, value) => total + value, 0);
}
