import { group } from 'd3-array';
import { BLADES, type Blade } from '../../shared/blade.ts';
import { rowsTimes, rowTimes, sparseRows, type SparseRows } from '../numerics/sparse-rows.ts';
import type { BasePrior } from './base-prior.ts';
import { baseRow, type BaseSpace } from './base-surface.ts';
import type { CaneReading } from './blade-data.ts';
import {
  openRemoval,
  sharedPosterior,
  takeIn,
  throughState,
  unreadState,
  type BladeState,
  type SeenReadings,
  type SharedPosterior,
  type Step,
} from './blade-state.ts';
import { heavyTailed } from './heavy-tails.ts';
import { expectedWithShared, type Expected } from './with-shared.ts';
import { roundsOf } from './removal-rounds.ts';
import { removalRow, spreadOf, type RemovalSpace, type RemovalSpread } from './removal-space.ts';
import { effectsOn, errorsUpTo, type SharedError } from './shared-errors.ts';
import { coefficientCount } from './tensor-basis.ts';

/** What is fitted: readings with the variance of their noise and the slope of the surface at their places. */
export interface NoisyReading extends CaneReading {
  readonly variance: number;
  readonly slopeAlong: number;
}

/** One blade before the sweep. */
export interface BladeToFit {
  readonly base: BaseSpace;
  readonly removal: RemovalSpace;
  readonly prior: BasePrior;
  /** At least one. */
  readonly readings: readonly NoisyReading[];
  /** How removals are spread, and the priors of those of each pass, where they are given and not found; noise is then normal. */
  readonly given?: { readonly spread: RemovalSpread; readonly priors: ReadonlyMap<number, Float64Array> };
}

/** One blade after the sweep. */
export interface SweptBlade {
  readonly state: BladeState;
  readonly steps: readonly Step[];
}

/** What all readings say of both blades and of the errors that they share. */
export interface Sweep {
  readonly blades: Readonly<Partial<Record<Blade, SweptBlade>>>;
  readonly shared: SharedPosterior;
}

/** One blade on the way: changed by each pass that it takes. */
export interface Sweeping {
  readonly toFit: Omit<BladeToFit, 'readings'>;
  readonly spread: RemovalSpread;
  readonly state: BladeState;
  readonly steps: Step[];
}

/**
 * The posterior of both blades in one sweep over the passes: each costs the same, whatever was read before. A pass's
 * removal finds its prior in its own pass.
 *
 * @param errors In the order of `sharedErrors`.
 */
export function sweepPasses(
  blades: Readonly<Partial<Record<Blade, BladeToFit>>>,
  errors: readonly SharedError[],
): Sweep {
  const sweeping = BLADES.flatMap((blade) => {
    const toFit = blades[blade];
    if (!toFit) return [];
    return [
      { blade, byPass: group(toFit.readings, ({ pass }) => pass), ...beginSweep(toFit, errors.length) },
    ];
  });
  const passes = new Set(sweeping.flatMap(({ byPass }) => [...byPass.keys()]));
  for (const pass of [...passes].sort((a, b) => a - b)) takePass(sweeping, pass, errors);
  return {
    blades: Object.fromEntries(sweeping.map(({ blade, state, steps }) => [blade, { state, steps }])),
    shared: sharedOf(sweeping, errors, errors.length),
  };
}

/** @param shared How many errors readings may share. */
export function beginSweep(toFit: Omit<BladeToFit, 'readings'>, shared: number): Sweeping {
  const spread = toFit.given?.spread ?? spreadOf(toFit.removal);
  const size = { base: coefficientCount(toFit.base.basis), removal: spread.size, shared };
  return { toFit, spread, state: unreadState(size, toFit.prior), steps: [] };
}

function sharedOf(
  sweeping: readonly Sweeping[],
  errors: readonly SharedError[],
  count: number,
): SharedPosterior {
  return sharedPosterior(
    sweeping.map(({ state }) => state),
    errors.slice(0, count).map(({ variance }) => variance),
  );
}

/** Both blades' readings of one pass. What they say of the shared errors tells in the passes after it. */
function takePass(
  sweeping: readonly (Sweeping & { readonly byPass: ReadonlyMap<number, readonly NoisyReading[]> })[],
  pass: number,
  errors: readonly SharedError[],
): void {
  const shared = sharedOf(sweeping, errors, errorsUpTo(errors, pass));
  for (const one of sweeping) {
    const readings = one.byPass.get(pass);
    if (readings) takeReadings(one, pass, readings, errors, shared);
  }
}

/**
 * One blade's readings of one pass.
 *
 * @param shared The first of the errors, by the passes before.
 */
export function takeReadings(
  one: Sweeping,
  pass: number,
  readings: readonly NoisyReading[],
  errors: readonly SharedError[],
  shared: SharedPosterior,
): void {
  const seen = seenReadings(one.toFit, readings, errors, shared.mean.length);
  const through = throughState(one.state, seen);
  const { given } = one.toFit;
  const expected = given ? undefined : expectedWithShared(one.state, seen, through, shared);
  const removal = one.steps.length > 0 ? removalOf(one, pass, seen, expected) : undefined;
  if (removal) open(one, removal, seen, through, expected);
  const weighed = expected ? { ...seen, variances: heavyTailed(seen.variances, expected) } : seen;
  one.steps.push({ pass, ...(removal && { removal }), ...takeIn(one.state, weighed, through) });
}

interface Seen extends SeenReadings {
  /** How the readings move with what went: they fall. */
  readonly removalRows: SparseRows;
}

/** Readings as a blade's state takes them, with how they move with the first `count` errors. */
export function seenReadings(
  { base, removal }: Pick<BladeToFit, 'base' | 'removal'>,
  readings: readonly NoisyReading[],
  errors: readonly SharedError[],
  count: number,
): Seen {
  const baseCount = coefficientCount(base.basis);
  const removed = readings.map(({ zMm, reading }) => negative(removalRow(removal, zMm, reading.across)));
  const rows = readings.map(({ zMm, reading }, i) => {
    const row = baseRow(base, zMm, reading.across);
    const { index, weight } = removed[i]!;
    return { index: [...row.index, ...index.map((k) => baseCount + k)], weight: [...row.weight, ...weight] };
  });
  const effects = new Float64Array(readings.length * count);
  readings.forEach(({ reading: { thicknessMm, time = 0, mislabelledMm }, slopeAlong, pass }, i) =>
    effects.set(effectsOn(errors, pass, { thicknessMm, time, slopeAlong, mislabelledMm }, count), i * count),
  );
  return {
    rows: sparseRows(rows),
    removalRows: sparseRows(removed),
    effects,
    errors: count,
    thicknessMm: Float64Array.from(readings, ({ reading }) => reading.thicknessMm),
    variances: Float64Array.from(readings, ({ variance }) => variance),
  };
}

const negative = ({ index, weight }: ReturnType<typeof removalRow>) => ({
  index,
  weight: weight.map((value) => -value),
});

function removalOf(
  { toFit, spread }: Sweeping,
  pass: number,
  { removalRows }: Seen,
  expected: Expected | undefined,
): Float64Array | undefined {
  return expected
    ? roundsOf(expected, removalRows, { space: toFit.removal, spread })
    : toFit.given?.priors.get(pass);
}

/** Opens a removal in the state, in how the readings go with it, and in what is expected of them. */
function open(
  { state, spread }: Sweeping,
  removal: Float64Array,
  seen: Seen,
  through: Float64Array,
  expected: Expected | undefined,
): void {
  const prior = spread.full(removal);
  openRemoval(state, prior);
  const { removalRows } = seen;
  const n = removalRows.count;
  const added = rowsTimes(removalRows, prior, spread.size);
  const columns = through.length / n;
  for (let i = 0; i < n; i++)
    for (let m = 0; m < spread.size; m++)
      through[i * columns + state.size.base + m]! += added[i * spread.size + m]!;
  if (!expected) return;
  for (let i = 0; i < n; i++)
    for (let j = 0; j <= i; j++)
      expected.covariance[i * n + j]! += rowTimes(removalRows, j, added, i * spread.size);
}
