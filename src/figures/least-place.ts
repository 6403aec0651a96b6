import type { Blade } from '../../shared/blade.ts';
import { IllPosedError } from '../../shared/errors.ts';
import { cholesky } from '../numerics/cholesky.ts';
import { normalPairs } from '../numerics/normal-draws.ts';
import { dot } from '../numerics/quadratic-form.ts';
import type { BladePosterior, Estimate, ReedModel } from '../surface/reed-model.ts';
import type { ZoneArea } from './zone-mean.ts';

/** The thinnest place of a zone, with the standard uncertainties of its thickness and of where it is. */
export interface LeastPlace extends Estimate {
  readonly fromTipMm: number;
  readonly fromTipUMm: number;
  readonly across: number;
  readonly acrossU: number;
}

/** Draws that give a standard uncertainty to about 4 %. */
const DRAWS = 300;
/** Added to the covariance, as a share of its mean variance, so that rounding leaves it positive. */
const RIDGE = 1e-10;

/**
 * The thinnest place among the nodes of a zone, on the likeliest surface. A minimum is not linear in the readings, so
 * its uncertainty comes from surfaces drawn from the model: the root mean square by which their minima, and the places
 * of these, differ from the reported ones. Drawn minima lie lower on the whole; that is part of the figure.
 *
 * @param random Uniform numbers from 0 to 1, seeded by the caller so that the figure repeats.
 * @throws IllPosedError for a zone without area on this blade.
 */
export function leastPlace(
  model: ReedModel,
  blade: Blade,
  pass: number,
  area: ZoneArea,
  random: () => number,
): LeastPlace {
  if (!model.blades[blade] || area.nodes.length === 0)
    throw new IllPosedError('area: must lie on a blade that was read');
  const posterior = model.after(blade, pass);
  const rows = area.nodes.map(({ x, y }) => sparse(model, blade, pass, x, y));
  const mean = rows.map((row) => row.times(posterior.mean));
  const best = lowest(mean);
  const draw = drawing(model, posterior, random);
  let [squares, along, across] = [0, 0, 0];
  for (let k = 0; k < DRAWS; k++) {
    const drawn = draw();
    const values = rows.map((row, i) => mean[i]! + row.times(drawn));
    const at = lowest(values);
    squares += (values[at]! - mean[best]!) ** 2;
    along += (area.nodes[at]!.x - area.nodes[best]!.x) ** 2;
    across += (area.nodes[at]!.y - area.nodes[best]!.y) ** 2;
  }
  return {
    valueMm: mean[best]!,
    uMm: Math.sqrt(squares / DRAWS),
    fromTipMm: area.nodes[best]!.x,
    fromTipUMm: Math.sqrt(along / DRAWS),
    across: area.nodes[best]!.y,
    acrossU: Math.sqrt(across / DRAWS),
  };
}

function lowest(values: readonly number[]): number {
  return values.reduce((best, value, i) => (value < values[best]! ? i : best), 0);
}

/** The weights of a place without their zeros. */
function sparse(model: ReedModel, blade: Blade, pass: number, fromTipMm: number, across: number) {
  const dense = new Float64Array(model.blades[blade]!.mean.length);
  model.addWeights(dense, { blade, pass, fromTipMm, across }, 1);
  const index = Array.from(dense.keys()).filter((i) => dense[i] !== 0);
  const weight = index.map((i) => dense[i]!);
  return {
    times: (theta: Float64Array) => index.reduce((sum, i, k) => sum + weight[k]! * theta[i]!, 0),
  };
}

/** Deviations of a blade's coefficients from their mean, its own and those of the shared errors. */
function drawing(
  model: ReedModel,
  { covariance, loadings, mean }: BladePosterior,
  random: () => number,
): () => Float64Array {
  const own = lowerFactor(covariance, mean.length);
  const shared = Math.sqrt(model.sharedCovariance.length);
  const sharedFactor = lowerFactor(model.sharedCovariance, shared);
  return () => {
    const deviation = lowerTimes(own, mean.length, normalPairs(random, mean.length));
    const error = lowerTimes(sharedFactor, shared, normalPairs(random, shared));
    return deviation.map((value, i) => value + dot(loadings.subarray(i * shared, (i + 1) * shared), error));
  };
}

function lowerFactor(covariance: Float64Array, n: number): Float64Array {
  const padded = covariance.slice();
  let trace = 0;
  for (let i = 0; i < n; i++) trace += covariance[i * n + i]!;
  for (let i = 0; i < n; i++) padded[i * n + i]! += (RIDGE * trace) / n;
  return cholesky(padded, n);
}

function lowerTimes(l: Float64Array, n: number, x: Float64Array): Float64Array {
  return Float64Array.from({ length: n }, (_, i) =>
    dot(x.subarray(0, i + 1), l.subarray(i * n, i * n + i + 1)),
  );
}
