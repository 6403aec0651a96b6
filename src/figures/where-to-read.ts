import type { Blade } from '../../shared/blade.ts';
import { InputError } from '../../shared/errors.ts';
import { dot, multiply } from '../numerics/quadratic-form.ts';
import {
  sparseBilinear,
  sparseDot,
  sparseTimes,
  takeSparse,
  type SparseWeights,
} from '../numerics/sparse-row.ts';
import { bladeEntries, type ReedPosterior } from '../surface/reed-posterior.ts';
import { readingVariance } from '../gauge/reading-noise.ts';
import type { Functional } from '../surface/reed-model.ts';
import { effectsOn } from '../surface/shared-errors.ts';

/** A place at which a reading can be taken. */
export interface ReadingPlace {
  readonly blade: Blade;
  readonly fromTipMm: number;
  readonly across: number;
}

/** A place worth reading, and how sure the figure will be once it and those before it are read. */
export interface WorthReading extends ReadingPlace {
  readonly uMm: number;
}

/** Where a maker reads: rows every so many millimetres and lines across the blade. */
const ROW_STEP_MM = 1;
const LINES = [-0.8, -0.6, -0.4, -0.2, 0, 0.2, 0.4, 0.6, 0.8];

/** Places at which both blades of a pass can be read, as far back as it was read so far. */
export function readablePlaces(model: ReedPosterior, pass: number, deepestMm: number): ReadingPlace[] {
  const rows = Math.floor(Math.min(deepestMm, model.passes[pass]!.bladeLengthMm) / ROW_STEP_MM);
  return (Object.keys(model.blades) as Blade[]).flatMap((blade) =>
    Array.from({ length: rows }, (_, i) => (i + 1) * ROW_STEP_MM).flatMap((fromTipMm) =>
      LINES.map((across) => ({ blade, fromTipMm, across })),
    ),
  );
}

/** A reading that could be taken: how it depends on surfaces and shared errors, and its noise. */
interface Possible {
  readonly place: ReadingPlace;
  readonly row: SparseWeights;
  /** How its expectation moves with the shared errors. */
  readonly moves: Float64Array;
  readonly noise: number;
  /** Share of each chosen reading in it, by root of that reading's variance. */
  readonly taken: number[];
  /** Covariance with the figure, and own variance without noise, after the chosen readings. */
  withFigure: number;
  variance: number;
}

/**
 * The readings that would most reduce the uncertainty of a figure, one after the other: each is the best given those
 * before it. Exact for the linear normal model with smoothing and noise held, by one rank-one step a reading. A place
 * may come twice.
 *
 * @param pass Place of the pass in which the readings would be taken.
 * @param figure Of the surfaces after that pass.
 * @param candidates On blades that were read.
 * @param count How many to name, 1 or more.
 * @throws InputError without candidates.
 */
export function whereToRead(
  model: ReedPosterior,
  pass: number,
  figure: Functional,
  candidates: readonly ReadingPlace[],
  count: number,
): WorthReading[] {
  if (candidates.length === 0) throw new InputError('candidates: must hold a place, got none');
  const own = figureSpread(model, pass, figure);
  let variance = own.variance;
  const possible = candidates.map((place) => possibleReading(model, pass, place, own));
  return Array.from({ length: count }, () => {
    const best = possible.reduce((a, b) => (gain(b) > gain(a) ? b : a));
    variance -= gain(best);
    take(model, pass, possible, best);
    return { ...best.place, uMm: Math.sqrt(Math.max(0, variance)) };
  });
}

/** By how much a reading lowers the figure's variance. */
const gain = ({ withFigure, variance, noise }: Possible) => withFigure ** 2 / (variance + noise);

/** V a for each blade, S d, and the figure's variance. */
interface FigureSpread {
  readonly onBlade: Readonly<Partial<Record<Blade, Float64Array>>>;
  readonly onShared: Float64Array;
  readonly variance: number;
}

function figureSpread(
  { after, sharedCovariance }: ReedPosterior,
  pass: number,
  figure: Functional,
): FigureSpread {
  const shared = Math.sqrt(sharedCovariance.length);
  const onBlade: Partial<Record<Blade, Float64Array>> = {};
  const moves = new Float64Array(shared);
  let variance = 0;
  for (const [blade, terms] of bladeEntries(figure)) {
    const { covariance, loadings } = after(blade, pass);
    const weights = new Float64Array(Math.sqrt(covariance.length));
    for (const term of terms) term.weights.forEach((weight, i) => (weights[i]! += weight));
    const row = takeSparse(weights);
    onBlade[blade] = sparseTimes(row, covariance, weights.length);
    variance += sparseDot(row, onBlade[blade]);
    sparseTimes(row, loadings, shared).forEach((value, j) => (moves[j]! += value));
  }
  const onShared = multiply(sharedCovariance, shared, moves);
  return { onBlade, onShared, variance: variance + dot(moves, onShared) };
}

function possibleReading(
  model: ReedPosterior,
  pass: number,
  place: ReadingPlace,
  { onBlade, onShared }: FigureSpread,
): Possible {
  const { sharedCovariance, passes, noise } = model;
  const { mean, covariance, loadings } = model.after(place.blade, pass);
  const weights = new Float64Array(mean.length);
  const rowOf = (derivative?: 'along' | 'across') => {
    model.addWeights(weights, { ...place, pass, ...(derivative && { derivative }) }, 1);
    return takeSparse(weights);
  };
  const row = rowOf();
  const alongCane = -sparseDot(rowOf('along'), mean);
  const acrossMm = sparseDot(rowOf('across'), mean) / passes[pass]!.halfWidthMm(place.fromTipMm);
  const shared = onShared.length;
  const moves = sparseTimes(row, loadings, shared);
  // One reading more is the last of its pass.
  const seen = { thicknessMm: sparseDot(row, mean), time: 1, slopeAlong: alongCane };
  effectsOn(model.errors, pass, seen).forEach((effect, j) => (moves[j]! += effect));
  const facing = onBlade[place.blade];
  return {
    place,
    row,
    moves,
    noise: readingVariance(noise, alongCane, acrossMm),
    taken: [],
    withFigure: (facing ? sparseDot(row, facing) : 0) + dot(moves, onShared),
    variance:
      sparseBilinear(row, covariance, mean.length, row) +
      dot(moves, multiply(sharedCovariance, shared, moves)),
  };
}

/** What all possible readings and the figure are once one of them is taken. */
function take(
  { after, sharedCovariance }: ReedPosterior,
  pass: number,
  possible: readonly Possible[],
  chosen: Possible,
): void {
  const { covariance, mean } = after(chosen.place.blade, pass);
  const onShared = multiply(sharedCovariance, chosen.moves.length, chosen.moves);
  const root = Math.sqrt(chosen.variance + chosen.noise);
  const figureShare = chosen.withFigure / root;
  const shares = possible.map((other) => {
    const together =
      other.place.blade === chosen.place.blade
        ? sparseBilinear(other.row, covariance, mean.length, chosen.row)
        : 0;
    return (together + dot(other.moves, onShared) - dot(other.taken, chosen.taken)) / root;
  });
  possible.forEach((other, i) => {
    const share = shares[i]!;
    other.withFigure -= share * figureShare;
    other.variance -= share * share;
    other.taken.push(share);
  });
}
