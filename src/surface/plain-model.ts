import { BLADES, type Blade } from '../../shared/blade.ts';
import { InputError } from '../../shared/errors.ts';
import { caneSpan } from './blade-data.ts';
import type { SparseWeights } from '../numerics/sparse-row.ts';
import { figuresOf } from './posterior-figures.ts';
import { fitSurfaceByReml, type SurfaceFit } from './penalised-surface.ts';
import {
  ordersOf,
  type BladePosterior,
  type FitPass,
  type FitReading,
  type ReedModel,
} from './reed-model.ts';
import { addDesignRow, lineRows, coefficientCount, type TensorBasis } from './tensor-basis.ts';

const COUNT_ALONG = 12;
const COUNT_ACROSS = 5;
const FEWEST_READINGS = 6;

/**
 * The surfaces of one pass by the plain smoother: each blade a tensor-product P-spline on its own, both smoothing
 * parameters by restricted maximum likelihood, noise from the residuals, no errors shared. The yardstick that the
 * joint fit of all passes is measured against.
 *
 * @throws InputError for a blade with one to five readings, or none on both.
 */
export function fitPlainly(pass: FitPass): ReedModel {
  const { fromZMm, toZMm } = caneSpan([pass]);
  const basis: TensorBasis = {
    along: { from: fromZMm, to: toZMm, count: COUNT_ALONG },
    across: { from: -1, to: 1, count: COUNT_ACROSS },
  };
  const { blades, noiseMm } = fitBlades(pass, basis);
  const onlyPass = (blade: Blade) => {
    const posterior = blades[blade];
    if (!posterior) throw new InputError(`blade: ${blade} was never read`);
    return posterior;
  };
  const lineOf = keptLines(basis);
  return {
    passes: [pass],
    blades,
    after: onlyPass,
    meanAfter: (blade) => onlyPass(blade).mean,
    taken: onePassOnly,
    together: (blade, figures) =>
      figuresOf(
        onlyPass(blade),
        figures.map((terms) => terms[0]?.weights ?? new Float64Array(coefficientCount(basis))),
      ),
    sharedCovariance: new Float64Array(0),
    noiseMm,
    noiseFrom: 'residuals',
    addWeights(target, { blade, fromTipMm, across, derivative }, factor) {
      if (!blades[blade]) throw new InputError(`blade: ${blade} was never read`);
      const { along: dy, across: du } = ordersOf(derivative);
      // z runs against the distance from the tip.
      const signed = dy === 1 ? -factor : factor;
      addDesignRow(target, basis, pass.overallLengthMm - fromTipMm, across, { dy, du }, signed);
    },
    across: basis.across,
    lineWeights({ blade, fromTipMm, derivative }) {
      if (!blades[blade]) throw new InputError(`blade: ${blade} was never read`);
      return lineOf(pass.overallLengthMm - fromTipMm, derivative ? 1 : 0);
    },
  };
}

/** Lines across: both blades lie on the same ones, and figures weigh them again and again. */
function keptLines(basis: TensorBasis) {
  const lines = [0, 1].map(() => new Map<number, readonly SparseWeights[]>());
  return (y: number, dy: 0 | 1): readonly SparseWeights[] => {
    // z runs against the distance from the tip.
    const rows = lines[dy]!.get(y) ?? lineRows(basis, { y, dy }, dy === 1 ? -1 : 1);
    lines[dy]!.set(y, rows);
    return rows;
  };
}

function onePassOnly(): never {
  throw new InputError('passes: must be two for what went between them, got one');
}

/** Each blade that was read, with its noise. */
function fitBlades(pass: FitPass, basis: TensorBasis) {
  const blades: Partial<Record<Blade, BladePosterior>> = {};
  const noiseMm: Partial<Record<Blade, number>> = {};
  for (const blade of BLADES) {
    const readings = pass.readings.filter((reading) => reading.blade === blade);
    if (readings.length === 0) continue;
    const fit = fitOne(readings, pass.overallLengthMm, basis);
    blades[blade] = posterior(fit);
    noiseMm[blade] = Math.sqrt(fit.noiseVariance);
  }
  return { blades, noiseMm };
}

function fitOne(readings: readonly FitReading[], overallLengthMm: number, basis: TensorBasis): SurfaceFit {
  if (readings.length < FEWEST_READINGS)
    throw new InputError(`readings: must be at least ${FEWEST_READINGS} on a blade, got ${readings.length}`);
  return fitSurfaceByReml(
    {
      y: readings.map(({ fromTipMm }) => overallLengthMm - fromTipMm),
      u: readings.map(({ across }) => across),
      t: readings.map(({ thicknessMm }) => thicknessMm),
      w: readings.map(({ repeats, noiseFactor }) => repeats / noiseFactor ** 2),
    },
    basis,
  );
}

function posterior({ theta, unscaledCovariance, noiseVariance }: SurfaceFit): BladePosterior {
  return {
    mean: theta,
    covariance: unscaledCovariance.map((value) => value * noiseVariance),
    loadings: new Float64Array(0),
  };
}
