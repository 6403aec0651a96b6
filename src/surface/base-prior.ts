import { knotSpacing } from '../numerics/uniform-b-spline.ts';
import type { BaseSpace } from './base-surface.ts';
import { smoothCovariance, priorVariances } from './roughness-penalty.ts';
import { PRIOR_MEAN_MM, USUAL_LOGS, type Roughness } from './roughness-evidence.ts';
import { warped } from './warp.ts';

/** Prior of the base surface's coefficients: normal about a constant with this covariance. */
export interface BasePrior {
  readonly meanMm: number;
  /** n x n, row by row. */
  readonly covariance: Float64Array;
  /** Where earlier reeds lead to expect more than a constant. */
  readonly learned?: {
    /** n: what the mean is above the constant. */
    readonly offsetMm: Float64Array;
    /** n x count, row by row: how the coefficients of both blades move with the first `count` shared errors. */
    readonly common: Float64Array;
    readonly count: number;
  };
}

/** @param rise How steep the ridge is between two rows, mm per mm; the usual where the readings leave it open. */
export function basePrior(
  space: BaseSpace,
  { logPrecisions }: Pick<Roughness, 'logPrecisions'>,
  rise = USUAL_RISE,
): BasePrior {
  const { basis } = space;
  const spread = priorVariances(basis, logPrecisions);
  const covariance = smoothCovariance(basis, spread);
  addUnseenShape(covariance, space, rise);
  return { meanMm: PRIOR_MEAN_MM, covariance };
}

/** Looks at one space again and again begin with the same prior. */
const usualPriors = new WeakMap<BaseSpace, BasePrior>();

/** The prior before any reading: the usual roughness of a blade. */
export function usualBasePrior(space: BaseSpace): BasePrior {
  const prior = usualPriors.get(space) ?? basePrior(space, { logPrecisions: USUAL_LOGS });
  usualPriors.set(space, prior);
  return prior;
}

/**
 * Shape that the stations cannot see and that is alike along the whole blade, so that it does not average out over a
 * zone: the profile between the stations, and the rails beyond the outermost ones. One standard deviation of a
 * coefficient; a sixth of the outermost one shows at the edge. Tuned on blades with a known truth.
 */
const BETWEEN_SD_MM = 0.045;
const RIM_SD_MM = 0.13;
/** The tip is thin, and strays in the same proportion. */
const TIP_SHARE = 0.3;
/** Channels, a spine, bark at the sides: behind where they begin more hides between the stations, by this share of it. */
const CHANNELS_SHARE = 0.4;
const CHANNELS_BEHIND = 3;
/** What is unseen at one side is mostly so at the other: blades are scraped alike on both. Common practice, no source. */
const MIRROR_CORRELATION = 0.8;
/**
 * How the ridge bends into the heart between two rows of stations, alike across the blade: one standard deviation of a
 * coefficient, and where among the coefficients behind the ridge. Tuned on blades with a known truth.
 */
const BEND_SD_MM = 0.01;
/** Steeper than this, mm per mm, more of the bend hides between the rows: with the square, as the ridge is shorter too. */
const USUAL_RISE = 0.12;
const BEND_BEHIND = 2;
const BEND_REACH = 2;

/**
 * Where spine and channels begin, and how sharply, between two rows of stations: one standard deviation of a coefficient,
 * alike on both sides, and where among the coefficients behind the ridge. Tuned on blades with a known truth.
 */
const BEGIN_SD_MM = 0.01;
const BEGIN_BEHIND = [2, 8] as const;

function addUnseenShape(covariance: Float64Array, space: BaseSpace, rise: number): void {
  const bendMm = BEND_SD_MM * Math.max(1, (rise / USUAL_RISE) ** 2);
  const { along, across } = space.basis;
  const ridge = (warped(space.warp, space.warp.ridgeMm) - along.from) / knotSpacing(along);
  // Coefficient i acts about knot i - 1; z rises towards the tip.
  const behind = Array.from({ length: along.count }, (_, i) => ridge - (i - 1));
  addAlikeAlong(
    covariance,
    behind.map(
      (x) => (TIP_SHARE + (1 - TIP_SHARE) * step(x)) * (1 + CHANNELS_SHARE * step(x - CHANNELS_BEHIND)),
    ),
    across.count,
  );
  addAlikeAcross(
    covariance,
    behind.map((x) => bendMm * bump((x - BEND_BEHIND) / BEND_REACH)),
    across.count,
  );
  const [from, to] = BEGIN_BEHIND;
  addMirrored(
    covariance,
    behind.map((x) => (x >= from && x <= to ? BEGIN_SD_MM : 0)),
    across.count,
  );
}

/** From 0 to 1 about zero; only + - x / and sqrt. */
function step(x: number): number {
  return (1 + x / Math.sqrt(1 + x * x)) / 2;
}

/** A bump of height 1 and a width of about 1; only + - x and /. */
function bump(x: number): number {
  const wide = 1 + (x * x) / 4;
  return 1 / (wide * wide);
}

function addAlikeAlong(covariance: Float64Array, shares: readonly number[], columns: number): void {
  const n = shares.length * columns;
  for (let j = 0; j < columns; j++) {
    const facing = columns - 1 - j;
    const sd = j === 0 || facing === 0 ? RIM_SD_MM : BETWEEN_SD_MM;
    shares.forEach((a, i) =>
      shares.forEach((b, p) => {
        const [row, column] = [(i * columns + j) * n, p * columns];
        covariance[row + column + j]! += sd * sd * a * b;
        if (facing !== j) covariance[row + column + facing]! += MIRROR_CORRELATION * sd * sd * a * b;
      }),
    );
  }
}

function addAlikeAcross(covariance: Float64Array, sds: readonly number[], columns: number): void {
  const n = sds.length * columns;
  sds.forEach((sd, i) => {
    for (let j = 0; j < columns; j++)
      for (let q = 0; q < columns; q++) covariance[(i * columns + j) * n + i * columns + q]! += sd * sd;
  });
}

/** Each coefficient strays by itself, but for its mirror image. */
function addMirrored(covariance: Float64Array, sds: readonly number[], columns: number): void {
  const n = sds.length * columns;
  sds.forEach((sd, i) => {
    for (let j = 0; j < columns; j++) {
      const [own, facing] = [i * columns + j, i * columns + columns - 1 - j];
      covariance[own * n + own]! += sd * sd;
      if (own !== facing) covariance[own * n + facing]! += MIRROR_CORRELATION * sd * sd;
    }
  });
}
