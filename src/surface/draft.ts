import type { Blade } from '../../shared/blade.ts';
import { comparedVariance, readingNoise, readingVariance, type NoiseModel } from '../gauge/reading-noise.ts';
import { sparseDot } from '../numerics/sparse-row.ts';
import { sparseRows } from '../numerics/sparse-rows.ts';
import { usualBasePrior, type BasePrior } from './base-prior.ts';
import { baseRow, type BaseSpace } from './base-surface.ts';
import { caneReadings, type CaneReading } from './blade-data.ts';
import { likeliestState, unreadState } from './blade-state.ts';
import type { ReadingPair } from './noise-from-pairs.ts';
import type { FitPass } from './reed-model.ts';
import type { BaseReading } from './roughness-evidence.ts';
import type { NoisyReading } from './sweep.ts';
import { coefficientCount } from './tensor-basis.ts';

/** A first look at a blade, from its fullest pass alone: good enough for slopes. */
export interface Draft {
  readonly readings: readonly CaneReading[];
  readonly slopes: readonly { along: number; across: number }[];
  readonly values: readonly number[];
}

/** A first look that knows nothing of slopes, and so weighs all readings alike. */
export function draft(
  passes: readonly FitPass[],
  blade: Blade,
  space: BaseSpace,
  { seatingMm }: NoiseModel,
  prior?: BasePrior,
): Draft {
  const readings = caneReadings(passes, blade);
  const flat = { readings, slopes: readings.map(() => ({ along: 0, across: 0 })), values: [] };
  return drawnAgain(passes, flat, space, readingNoise(seatingMm), prior);
}

/** The same with placement in the noise, by the slopes of a draft before. */
export function drawnAgain(
  passes: readonly FitPass[],
  before: Draft,
  space: BaseSpace,
  noise: NoiseModel,
  prior = usualBasePrior(space),
): Draft {
  const { readings } = before;
  const fullest = fullestPass(readings)[0]!.pass;
  const noisy = noisyReadings(passes, before, noise).filter(({ pass }) => pass === fullest);
  const size = { base: coefficientCount(space.basis), removal: 0, shared: 0 };
  const mean = likeliestState(unreadState(size, prior), {
    rows: sparseRows(noisy.map(({ reading, zMm }) => baseRow(space, zMm, reading.across))),
    effects: new Float64Array(0),
    errors: 0,
    thicknessMm: Float64Array.from(noisy, ({ reading }) => reading.thicknessMm),
    variances: Float64Array.from(noisy, ({ variance }) => variance),
  });
  return { readings, ...surfaceAt(space, mean, readings) };
}

function fullestPass(readings: readonly CaneReading[]): CaneReading[] {
  const counts = new Map<number, number>();
  for (const { pass } of readings) counts.set(pass, (counts.get(pass) ?? 0) + 1);
  const most = Math.max(...counts.values());
  const fullest = [...counts].find(([, count]) => count === most)![0];
  return readings.filter(({ pass }) => pass === fullest);
}

/** A draft's surface at a place. */
interface Facet {
  readonly value: number;
  readonly slope: { readonly along: number; readonly across: number };
}

function surfaceAt(space: BaseSpace, theta: Float64Array, readings: readonly CaneReading[]) {
  const at = (zMm: number, u: number, dz: number, du: number) =>
    sparseDot(baseRow(space, zMm, u, dz, du), theta);
  // Passes come back to the same places.
  const known = new Map<number, Map<number, Facet>>();
  const places = readings.map(({ zMm, reading: { across: u } }) => {
    const line = known.get(u) ?? new Map<number, Facet>();
    known.set(u, line);
    const place = line.get(zMm) ?? {
      value: at(zMm, u, 0, 0),
      slope: { along: at(zMm, u, 1, 0), across: at(zMm, u, 0, 1) },
    };
    line.set(zMm, place);
    return place;
  });
  return { slopes: places.map(({ slope }) => slope), values: places.map(({ value }) => value) };
}

/** Variance of a reading on a surface with these slopes, so many passes compared with each other. */
function varianceOf(
  { reading, pass }: CaneReading,
  slope: { along: number; across: number },
  noise: NoiseModel,
  passes: readonly FitPass[],
  compared: number,
): number {
  const halfWidth = passes[pass]!.halfWidthMm(reading.fromTipMm);
  const one = comparedVariance(noise, slope.along, slope.across / halfWidth, compared);
  return (one * reading.noiseFactor ** 2) / reading.repeats;
}

export function baseReadings(
  from: Draft,
  space: BaseSpace,
  noise: NoiseModel,
  passes: readonly FitPass[],
): BaseReading[] {
  const places = new Map(from.readings.map((reading, i) => [reading, i]));
  return fullestPass(from.readings).map((reading) => ({
    row: baseRow(space, reading.zMm, reading.reading.across),
    valueMm: reading.reading.thicknessMm,
    variance: varianceOf(reading, from.slopes[places.get(reading)!]!, noise, passes, 1),
  }));
}

/** Furthest apart on the cane that two readings may be to count as the same place, mm. */
const SAME_PLACE_MM = 0.45;

/** Pairs of readings of the same place in consecutive passes, the surface's own change between them taken off. */
export function readingPairs({ readings, slopes, values }: Draft, passes: readonly FitPass[]): ReadingPair[] {
  const lines = new Map<string, number[]>();
  const lineOf = (pass: number, across: number) => `${pass} ${Math.round(across * 50)}`;
  readings.forEach(({ pass, reading }, i) => {
    const key = lineOf(pass, reading.across);
    lines.set(key, [...(lines.get(key) ?? []), i]);
  });
  return readings.flatMap((later, i) => {
    const away = (j: number) => Math.abs(readings[j]!.zMm - later.zMm);
    const nearest = (lines.get(lineOf(later.pass - 1, later.reading.across)) ?? [])
      .filter((j) => away(j) <= SAME_PLACE_MM)
      .reduce<number | undefined>(
        (best, j) => (best === undefined || away(j) < away(best) ? j : best),
        undefined,
      );
    if (nearest === undefined) return [];
    const earlier = readings[nearest]!;
    const drop = earlier.reading.thicknessMm - later.reading.thicknessMm - (values[nearest]! - values[i]!);
    const halfWidth = passes[later.pass]!.halfWidthMm(later.reading.fromTipMm);
    const { along, across } = slopes[i]!;
    const perPlacement = 2 * readingVariance(readingNoise(0, 1), along, across / halfWidth);
    return [
      {
        pass: later.pass,
        dropMm: drop,
        thicknessMm: later.reading.thicknessMm,
        slopeAlong: along,
        perPlacement,
      },
    ];
  });
}

export function noisyReadings(passes: readonly FitPass[], blade: Draft, noise: NoiseModel): NoisyReading[] {
  return blade.readings.map((reading, i) => ({
    ...reading,
    variance: varianceOf(reading, blade.slopes[i]!, noise, passes, passes.length),
    slopeAlong: blade.slopes[i]!.along,
  }));
}
