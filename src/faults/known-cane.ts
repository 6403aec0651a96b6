import { BLADES, type Blade } from '../../shared/blade.ts';
import { usualBasePrior } from '../surface/base-prior.ts';
import { baseRow, baseSpace, type BaseSpace } from '../surface/base-surface.ts';
import { steepestPlace } from '../surface/blade-data.ts';
import { likeliestState, type SharedPosterior } from '../surface/blade-state.ts';
import { removalRow, removalSpace } from '../surface/removal-space.ts';
import {
  beginSweep,
  seenReadings,
  takeReadings,
  type NoisyReading,
  type Sweeping,
} from '../surface/sweep.ts';
import { sparseDot } from '../numerics/sparse-row.ts';

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

/** What some passes tell of the cane, by the model that surfaces are fitted with; errors that passes share are explained. */
export interface KnownCane {
  /** Readings pass by pass. */
  readonly passes: readonly (readonly CaneReading[])[];
  readonly base: BaseSpace;
  readonly ridgeSeen: boolean;
  /** Where the spaces end, mm from the cork end. */
  readonly fromMm: number;
  readonly toMm: number;
  readonly blades: Readonly<Partial<Record<Blade, KnownBlade>>>;
}

export interface KnownBlade {
  readonly sweeping: Sweeping;
  /** The cane that was read. */
  readonly hull: readonly [from: number, to: number];
}

/** Room about the cane that was read, mm: shifts and clips lead there. */
const MARGIN_MM = 2.4;
/** Where the ridge is counted from the highest place that was read, mm, where readings leave it open. Common practice, no source. */
const USUAL_RIDGE_MM = 4;
/** Serves steep ridges and gentle ones; the same as for slopes of surfaces. */
const WARP = { widthMm: 0.8, strength: 4 };
const NO_ERRORS: SharedPosterior = { factor: new Float64Array(0), mean: new Float64Array(0) };

/**
 * The cane with one more pass: one step of the sweep, whatever was known before. Begun anew where a pass reaches beyond the
 * spaces, or shows the ridge for the first time.
 */
export function withPass(
  before: KnownCane | undefined,
  pass: readonly CaneReading[],
  placementMm: number,
): KnownCane {
  const passes = [...(before?.passes ?? []), pass];
  if (before && fits(before, pass)) {
    return { ...before, passes, blades: stepped(before, pass, placementMm) };
  }
  const all = passes.flat();
  const fromMm = Math.min(...all.map(({ zMm }) => zMm)) - MARGIN_MM;
  const toMm = Math.max(...all.map(({ zMm }) => zMm)) + MARGIN_MM;
  const seen = ridges(passes);
  const ridgeMm =
    seen.length > 0 ? seen.reduce((sum, z) => sum + z, 0) / seen.length : toMm - MARGIN_MM - USUAL_RIDGE_MM;
  const base = baseSpace({ ridgeMm, ...WARP }, fromMm, toMm);
  return passes.reduce<KnownCane>((known, one) => ({ ...known, blades: stepped(known, one, placementMm) }), {
    passes,
    base,
    ridgeSeen: seen.length > 0,
    fromMm,
    toMm,
    blades: {},
  });
}

function fits({ fromMm, toMm, ridgeSeen }: KnownCane, pass: readonly CaneReading[]): boolean {
  return (
    pass.every(({ zMm }) => zMm > fromMm + 1 && zMm < toMm - 1) && (ridgeSeen || ridges([pass]).length === 0)
  );
}

/** The steepest places of the blades in the first pass that shows any. */
function ridges(passes: readonly (readonly CaneReading[])[]): number[] {
  for (const pass of passes) {
    const seen = BLADES.flatMap(
      (blade) =>
        steepestPlace(
          pass
            .filter((reading) => reading.blade === blade)
            .map(({ zMm, thicknessMm }) => ({ zMm, thicknessMm })),
        )?.zMm ?? [],
    );
    if (seen.length > 0) return seen;
  }
  return [];
}

function stepped(known: KnownCane, pass: readonly CaneReading[], placementMm: number): KnownCane['blades'] {
  const blades = { ...known.blades };
  for (const blade of BLADES) {
    const own = pass.filter((reading) => reading.blade === blade);
    if (own.length > 0) blades[blade] = withReadings(known, blades[blade], own, placementMm);
  }
  return blades;
}

function withReadings(
  { base, fromMm, toMm }: KnownCane,
  before: KnownBlade | undefined,
  readings: readonly CaneReading[],
  placementMm: number,
): KnownBlade {
  const toFit = { base, removal: removalSpace(fromMm, toMm), prior: usualBasePrior(base) };
  const sweeping = before ? copyOf(before.sweeping) : beginSweep(toFit, 0);
  const flat = readings.map((reading) => noisy(reading, 0));
  const mean = before
    ? sweeping.state.mean
    : likeliestState(sweeping.state, seenReadings(toFit, flat, [], 0));
  const placed = readings.map((reading) => noisy(reading, placementMm * slopeAt(sweeping, mean, reading)));
  takeReadings(sweeping, sweeping.steps.length, placed, [], NO_ERRORS);
  const z = readings.map(({ zMm }) => zMm);
  return {
    sweeping,
    hull: [Math.min(before?.hull[0] ?? Infinity, ...z), Math.max(before?.hull[1] ?? -Infinity, ...z)],
  };
}

const copyOf = ({ state, ...sweeping }: Sweeping): Sweeping => ({
  ...sweeping,
  steps: [...sweeping.steps],
  state: { ...state, mean: state.mean.slice(), joint: state.joint.slice() },
});

function noisy({ blade, zMm, across, thicknessMm, seatingMm }: CaneReading, placedMm: number): NoisyReading {
  const reading = { blade, fromTipMm: 0, across, thicknessMm, repeats: 1, noiseFactor: 1 };
  return { reading, zMm, pass: 0, variance: seatingMm ** 2 + placedMm ** 2, slopeAlong: 0 };
}

function slopeAt(
  { toFit: { base, removal } }: Sweeping,
  mean: Float64Array,
  { zMm, across }: CaneReading,
): number {
  const gone = mean.subarray(mean.length - removal.along.count * removal.across.count);
  return (
    sparseDot(baseRow(base, zMm, across, 1), mean) - sparseDot(removalRow(removal, zMm, across, 1), gone)
  );
}

/** Weights of a place's thickness in a blade's state. */
export function placeRow({ toFit: { base, removal }, state }: Sweeping, zMm: number, across: number) {
  const row = baseRow(base, zMm, across);
  const gone = removalRow(removal, zMm, across);
  return {
    index: [...row.index, ...gone.index.map((k) => state.size.base + k)],
    weight: [...row.weight, ...gone.weight.map((weight) => -weight)],
  };
}
