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
  /** Square of the change that its pass showed, less what noise adds, mm2, negative by chance; not known if absent. */
  readonly removedMm2?: number;
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
const PROFILE = { sdMm: 0.18, alongMm: 3.5 };
const DEPARTURE = { sdMm: 0.04, alongMm: 1.8 };
const REMOVAL = { sdMm: 0.025, alongMm: 1.1 };
/** Across, departures and removals range alike; in half-widths. */
const ACROSS_RANGE = 0.4;
/** Cane further than this from all readings of a pass probably was not touched before it. */
const UNREAD = { beyondMm: 1.6, share: 0.15 };
/** A removal that may pass for swelling or noise, one standard deviation, mm. */
const HIDDEN_MM = 0.008;
/** Behind the heart a blade changes half as fast along its length. */
const GENTLE_FROM_TIP_MM = 8;

/**
 * The cane as earlier passes found it, before the next knife: a Gaussian process of a profile, departures from it, and
 * one removal for each pass after the first, about each row as large as that pass showed it. Placement enters the noise
 * by the surface's own slope, twice through.
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

/** A reading's row: a distance from the cork end in one pass, with the share of each removal that it saw. */
interface Row {
  readonly zMm: number;
  readonly taken: Float64Array;
}

interface Trained {
  readonly readings: readonly CaneReading[];
  readonly rows: readonly Row[];
  /** Place in `rows` of each reading. */
  readonly rowOf: Uint16Array;
  readonly table: readonly TablePlace[];
  readonly fromMm: number;
  readonly hull: readonly [from: number, to: number];
  readonly factor: Float64Array;
  readonly weights: Float64Array;
}

/** A place of the tables: its covariances with each row, and its variance before anything was read, mm2. */
interface TablePlace {
  readonly alongs: readonly Along[];
  readonly variance: number;
}

/** The parts of the covariance of two places that depend on where they are along the blade, mm2. */
interface Along {
  readonly profile: number;
  readonly departure: number;
  readonly removal: number;
}

function train(
  blade: Blade,
  passes: readonly (readonly CaneReading[])[],
  placementMm: number,
): Trained | undefined {
  const own = passes.map((readings) => readings.filter((reading) => reading.blade === blade));
  const readings = own.flat();
  if (readings.length === 0) return undefined;
  const { rows, rowOf, takenAt } = rowsOf(own);
  const z = rows.map(({ zMm }) => zMm);
  const hull = [Math.min(...z), Math.max(...z)] as const;
  const bend = (zMm: number) => zMm + Math.max(0, hull[1] - zMm - GENTLE_FROM_TIP_MM) / 2;
  const fromMm = hull[0] - MARGIN_MM;
  const places = Math.ceil((hull[1] + MARGIN_MM - fromMm) / TABLE_STEP_MM / SPREAD_EVERY) * SPREAD_EVERY + 1;
  const table = Array.from({ length: places }, (_, i) => {
    const zMm = fromMm + i * TABLE_STEP_MM;
    const here = { zMm, taken: takenAt(zMm) };
    return {
      alongs: rows.map((row) => alongOf(here, row, bend)),
      variance: covarianceAt(alongOf(here, here, bend), 1),
    };
  });
  const between = rows.map((a) => rows.map((b) => alongOf(a, b, bend)));
  const known = { readings, rows, rowOf, table, fromMm, hull };
  const covariance = covarianceOf(readings, rowOf, between);
  const first = { ...known, ...solve(covariance, readings, () => 0) };
  const columns = new Map<number, Float64Array>();
  const slopeAt = ({ zMm, across }: CaneReading) => {
    const mm = columns.get(across) ?? means(first, acrossOf(first, across));
    columns.set(across, mm);
    const i = Math.round((zMm - fromMm) / TABLE_STEP_MM);
    return (mm[i + 1]! - mm[i - 1]!) / (2 * TABLE_STEP_MM);
  };
  return { ...known, ...solve(covariance, readings, (reading) => placementMm * slopeAt(reading)) };
}

function rowsOf(passes: readonly (readonly CaneReading[])[]) {
  const later = passes.slice(1);
  const takenAt = (zMm: number, removals = later.length) =>
    Float64Array.from(later.slice(0, removals), (readings) => shareTaken(readings, zMm));
  const rows: Row[] = [];
  const rowOf = passes.flatMap((readings, pass) => {
    const own = new Map<number, number>();
    return readings.map(({ zMm }) => {
      const row = own.get(zMm) ?? rows.push({ zMm, taken: takenAt(zMm, pass) }) - 1;
      own.set(zMm, row);
      return row;
    });
  });
  return { rows, rowOf: Uint16Array.from(rowOf), takenAt };
}

/** How large the removal before a pass may be somewhere, in proportion to the largest that is usual. */
function shareTaken(readings: readonly CaneReading[], zMm: number): number {
  let [total, sum] = [0, 0];
  for (const { zMm: readAt, removedMm2 = REMOVAL.sdMm ** 2 } of readings) {
    const apart = Math.abs(readAt - zMm);
    if (apart > UNREAD.beyondMm) continue;
    const weight = Math.exp(-((apart / REMOVAL.alongMm) ** 2));
    total += weight;
    sum += weight * removedMm2;
  }
  if (total === 0) return UNREAD.share;
  return Math.hypot(Math.sqrt(Math.max(sum / total, 0)), HIDDEN_MM) / REMOVAL.sdMm;
}

function alongOf(a: Row, b: Row, bend: (zMm: number) => number): Along {
  const apart = Math.abs(bend(a.zMm) - bend(b.zMm));
  let both = 0;
  for (let k = Math.min(a.taken.length, b.taken.length) - 1; k >= 0; k--) both += a.taken[k]! * b.taken[k]!;
  return {
    profile: PROFILE.sdMm ** 2 * matern(apart / PROFILE.alongMm),
    departure: DEPARTURE.sdMm ** 2 * matern(apart / DEPARTURE.alongMm),
    removal: both === 0 ? 0 : both * REMOVAL.sdMm ** 2 * matern(Math.abs(a.zMm - b.zMm) / REMOVAL.alongMm),
  };
}

const covarianceAt = ({ profile, departure, removal }: Along, alike: number) =>
  profile + (departure + removal) * alike;

/** Correlation across of departures and removals. */
const alikeAcross = (a: number, b: number) => matern(Math.abs(a - b) / ACROSS_RANGE);

/** Matérn correlation of smoothness 5/2. Source: Rasmussen & Williams 2006, eq. 4.17, from memory. */
function matern(distance: number): number {
  const a = Math.sqrt(5) * distance;
  return (1 + a + (a * a) / 3) * Math.exp(-a);
}

function covarianceOf(
  readings: readonly CaneReading[],
  rowOf: Uint16Array,
  between: readonly (readonly Along[])[],
): Float64Array {
  const n = readings.length;
  const places = [...new Set(readings.map(({ across }) => across))];
  const placeOf = readings.map(({ across }) => places.indexOf(across));
  const alike = places.map((a) => places.map((b) => alikeAcross(a, b)));
  const covariance = new Float64Array(n * n);
  for (let i = 0; i < n; i++) {
    const alongs = between[rowOf[i]!]!;
    const alikes = alike[placeOf[i]!]!;
    for (let j = 0; j <= i; j++)
      covariance[i * n + j] = covarianceAt(alongs[rowOf[j]!]!, alikes[placeOf[j]!]!);
  }
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

/** How alike each reading is to a line, by its place across. */
function acrossOf({ readings }: Pick<Trained, 'readings'>, across: number): Float64Array {
  return Float64Array.from(readings, (reading) => alikeAcross(reading.across, across));
}

function covariances({ rowOf }: Trained, alongs: readonly Along[], alike: Float64Array): Float64Array {
  const k = new Float64Array(alike.length);
  for (let i = 0; i < k.length; i++) k[i] = covarianceAt(alongs[rowOf[i]!]!, alike[i]!);
  return k;
}

function means(trained: Trained, alike: Float64Array): Float64Array {
  return Float64Array.from(
    trained.table,
    ({ alongs }) => PRIOR_MEAN_MM + dot(covariances(trained, alongs, alike), trained.weights),
  );
}

function tabulate(trained: Trained, across: number): Column {
  const alike = acrossOf(trained, across);
  return {
    fromMm: trained.fromMm,
    hull: trained.hull,
    mm: means(trained, alike),
    uMm: spreads(trained, alike),
  };
}

/** Standard deviations at every few places, straight lines between them. */
function spreads(trained: Trained, alike: Float64Array): Float64Array {
  const { table, factor } = trained;
  const uMm = new Float64Array(table.length);
  for (let i = 0; i < uMm.length; i += SPREAD_EVERY) {
    const { alongs, variance } = table[i]!;
    const half = solveLower(factor, alike.length, covariances(trained, alongs, alike));
    uMm[i] = Math.sqrt(Math.max(variance - dot(half, half), 0));
    for (let j = 1; i > 0 && j < SPREAD_EVERY; j++) {
      const [before, after] = [uMm[i - SPREAD_EVERY]!, uMm[i]!];
      uMm[i - j] = after + ((before - after) * j) / SPREAD_EVERY;
    }
  }
  return uMm;
}
