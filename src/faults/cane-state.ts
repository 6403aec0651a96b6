import { BLADES, type Blade } from '../../shared/blade.ts';
import { cholesky, solveCholesky, solveLower } from '../numerics/cholesky.ts';
import { dot } from '../numerics/quadratic-form.ts';

/** A reading of earlier passes as it was explained. */
export interface CaneReading {
  readonly blade: Blade;
  /** mm from the cork end. */
  readonly zMm: number;
  readonly across: number;
  readonly thicknessMm: number;
  /** Seating noise, one standard deviation. */
  readonly seatingMm: number;
}

/** Thickness down one line of a blade, tabulated from `fromMm` every `TABLE_STEP_MM`, mm from the cork end. */
export interface Column {
  readonly fromMm: number;
  readonly mm: Float64Array;
  /** Standard deviation of the true thickness there. */
  readonly uMm: Float64Array;
  /** The cane that was read. */
  readonly hull: readonly [from: number, to: number];
}

/** What is known of the cane down the line through a place; undefined where it was never read. */
export type CaneState = (blade: Blade, across: number, zMm: number) => Column | undefined;

export const TABLE_STEP_MM = 0.2;
const SPREAD_EVERY = 4;
const MARGIN_MM = 2.4;

/** Sizes and ranges, as standard deviations and distances: fitted by eye and likelihood to invented reeds. */
const PRIOR_MEAN_MM = 0.35;
const PROFILE = { sdMm: 0.18, alongMm: 4.5 };
const DEPARTURE = { sdMm: 0.04, alongMm: 2.5, across: 0.4 };
const REMOVAL = { sdMm: 0.025, alongMm: 1.5, across: 0.4 };
/** Cane further than this from all readings of a pass probably was not touched before it. */
const UNREAD = { beyondMm: 1.6, share: 0.15 };
/** Behind the heart a blade changes half as fast along its length. */
const GENTLE_FROM_TIP_MM = 8;

/**
 * The cane as earlier passes found it, before the next knife: a Gaussian process of a profile, departures from it, and
 * one removal for each pass after the first. Placement enters the noise by the surface's own slope, twice through.
 *
 * @param passes Readings pass by pass.
 */
export function caneState(passes: readonly (readonly CaneReading[])[], placementMm: number): CaneState {
  const trained = new Map(BLADES.map((blade) => [blade, train(blade, passes, placementMm)] as const));
  const columns = new Map<string, Column>();
  return (blade, across) => {
    const from = trained.get(blade);
    if (!from) return undefined;
    const key = `${blade}${across}`;
    const column = columns.get(key) ?? tabulate(from, across);
    columns.set(key, column);
    return column;
  };
}

/** A place on the cane, with the shares of each removal that it saw. */
interface Point {
  readonly zMm: number;
  readonly across: number;
  /** Distance along which the profile changes evenly. */
  readonly bendMm: number;
  readonly taken: Float64Array;
}

interface Trained {
  readonly points: readonly Point[];
  readonly pointAt: (zMm: number, across: number, passesBefore?: number) => Point;
  readonly fromMm: number;
  readonly toMm: number;
  readonly factor: Float64Array;
  readonly weights: Float64Array;
}

function train(
  blade: Blade,
  passes: readonly (readonly CaneReading[])[],
  placementMm: number,
): Trained | undefined {
  const own = passes.map((readings) => readings.filter((reading) => reading.blade === blade));
  const readings = own.flat();
  if (readings.length === 0) return undefined;
  const z = readings.map(({ zMm }) => zMm);
  const [fromMm, toMm] = [Math.min(...z), Math.max(...z)];
  const rows = own.slice(1).map((members) => [...new Set(members.map(({ zMm }) => zMm))]);
  const pointAt = (zMm: number, across: number, passesBefore = rows.length): Point => ({
    zMm,
    across,
    bendMm: zMm + Math.max(0, toMm - zMm - GENTLE_FROM_TIP_MM) / 2,
    taken: Float64Array.from(rows.slice(0, passesBefore), (zs) =>
      zs.some((row) => Math.abs(row - zMm) <= UNREAD.beyondMm) ? 1 : UNREAD.share,
    ),
  });
  const points = own.flatMap((members, pass) => members.map(({ zMm, across }) => pointAt(zMm, across, pass)));
  const known = { points, pointAt, fromMm, toMm };
  const covariance = covarianceOf(points);
  const first = { ...known, ...solve(covariance, readings, () => 0) };
  const slopes = new Map<number, Float64Array>();
  const slopeAt = ({ zMm, across }: CaneReading) => {
    const mm = slopes.get(across) ?? means(first, across);
    slopes.set(across, mm);
    const i = Math.round((zMm - fromMm + MARGIN_MM) / TABLE_STEP_MM);
    return (mm[i + 1]! - mm[i - 1]!) / (2 * TABLE_STEP_MM);
  };
  return { ...known, ...solve(covariance, readings, (reading) => placementMm * slopeAt(reading)) };
}

function covarianceOf(points: readonly Point[]): Float64Array {
  const n = points.length;
  const covariance = new Float64Array(n * n);
  for (let i = 0; i < n; i++)
    for (let j = 0; j <= i; j++) covariance[i * n + j] = kernel(points[i]!, points[j]!);
  return covariance;
}

function solve(
  covariance: Float64Array,
  readings: readonly CaneReading[],
  placedMm: (reading: CaneReading) => number,
): { factor: Float64Array; weights: Float64Array } {
  const n = readings.length;
  const noisy = covariance.slice();
  readings.forEach((reading, i) => {
    noisy[i * n + i]! += reading.seatingMm ** 2 + placedMm(reading) ** 2;
  });
  const factor = cholesky(noisy, n);
  const weights = solveCholesky(
    factor,
    n,
    readings.map(({ thicknessMm }) => thicknessMm - PRIOR_MEAN_MM),
  );
  return { factor, weights };
}

function kernel(a: Point, b: Point): number {
  const bend = Math.abs(a.bendMm - b.bendMm);
  const du = Math.abs(a.across - b.across);
  let covariance =
    PROFILE.sdMm ** 2 * matern(bend / PROFILE.alongMm) +
    DEPARTURE.sdMm ** 2 * matern(bend / DEPARTURE.alongMm) * matern(du / DEPARTURE.across);
  const both = dot(a.taken.length < b.taken.length ? a.taken : b.taken, longer(a.taken, b.taken));
  if (both > 0)
    covariance +=
      both *
      REMOVAL.sdMm ** 2 *
      matern(Math.abs(a.zMm - b.zMm) / REMOVAL.alongMm) *
      matern(du / REMOVAL.across);
  return covariance;
}

const longer = (a: Float64Array, b: Float64Array) => (a.length < b.length ? b : a);

/** Matérn correlation of smoothness 5/2. Source: Rasmussen & Williams 2006, eq. 4.17. */
function matern(distance: number): number {
  const a = Math.sqrt(5) * distance;
  return (1 + a + (a * a) / 3) * Math.exp(-a);
}

function tablePoints({ fromMm, toMm, pointAt }: Trained, across: number): Point[] {
  const from = fromMm - MARGIN_MM;
  const n = Math.ceil((toMm + MARGIN_MM - from) / TABLE_STEP_MM / SPREAD_EVERY) * SPREAD_EVERY + 1;
  return Array.from({ length: n }, (_, i) => pointAt(from + i * TABLE_STEP_MM, across));
}

function means(trained: Trained, across: number): Float64Array {
  return Float64Array.from(
    tablePoints(trained, across),
    (point) => PRIOR_MEAN_MM + dot(covariances(trained, point), trained.weights),
  );
}

function covariances({ points }: Trained, point: Point): Float64Array {
  return Float64Array.from(points, (other) => kernel(point, other));
}

function tabulate(trained: Trained, across: number): Column {
  const points = tablePoints(trained, across);
  const uMm = new Float64Array(points.length);
  const mm = Float64Array.from(points, (point, i) => {
    const k = covariances(trained, point);
    if (i % SPREAD_EVERY === 0) uMm[i] = spread(trained, point, k);
    return PRIOR_MEAN_MM + dot(k, trained.weights);
  });
  for (let i = 0; i < uMm.length; i++) {
    const before = i - (i % SPREAD_EVERY);
    if (before === i) continue;
    const [a, b] = [uMm[before]!, uMm[before + SPREAD_EVERY]!];
    uMm[i] = a + ((b - a) * (i - before)) / SPREAD_EVERY;
  }
  return { fromMm: trained.fromMm - MARGIN_MM, mm, uMm, hull: [trained.fromMm, trained.toMm] };
}

function spread({ points, factor }: Trained, point: Point, k: Float64Array): number {
  const half = solveLower(factor, points.length, k);
  return Math.sqrt(Math.max(kernel(point, point) - dot(half, half), 0));
}
