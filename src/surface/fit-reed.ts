import { BLADES, type Blade } from '../../shared/blade.ts';
import { InputError } from '../../shared/errors.ts';
import { basePrior, usualBasePrior } from './base-prior.ts';
import { baseRow, baseSpace, type BaseSpace } from './base-surface.ts';
import { caneReadings, caneSpan, steepestPlace, type CaneReading } from './blade-data.ts';
import { bladeLayout } from './blade-layout.ts';
import { assembleModel, type FittedReed } from './fitted-reed.ts';
import { fitBlade, type BladeEvidence, type NoisyReading } from './joint-blade.ts';
import {
  ACROSS_SHARE,
  DEFAULT_PLACEMENT_MM,
  readingVariance,
  resolutionSdMm,
  seatingFromPairs,
  usualSeatingMm,
  type NoiseModel,
  type ReadingPair,
} from './reading-noise.ts';
import type { FitPass, NoiseSource } from './reed-model.ts';
import { chooseRoughness, type Roughness } from './roughness-evidence.ts';
import { removalSpace } from './removal-space.ts';
import {
  SHARED_PER_PASS,
  sharedVariances,
  usualSharedErrors,
  type SharedErrorSizes,
} from './shared-errors.ts';

/** What is known of gauge and hand beside the readings; everything may be left out. */
export interface FitOptions {
  /** Step of the gauge's display, mm; found from the readings where it is not given. */
  readonly stepMm?: number;
  /** Seating noise of one reading with its source, resolution included. */
  readonly seating?: { readonly sdMm: number; readonly from: 'repeats' | 'study' | 'declared' };
  /** Placement error along the blade, one standard deviation. */
  readonly placementMm?: number;
  readonly shared?: SharedErrorSizes;
  /** Places of passes whose labels or lengths are in doubt: comparing them with others says nothing of the noise. */
  readonly unsettled?: readonly number[];
  /** Where tip turns into heart, mm from the tip of the first pass, where few readings leave it open. */
  readonly ridgeFromTipMm?: number;
}

/** Common practice, no source. */
const USUAL_RIDGE_FROM_TIP_MM = 4.5;
/** How the coordinate along may be stretched about the ridge; the readings choose. The first serves for slopes. */
const WARPS = [
  { widthMm: 0.8, strength: 4 },
  { widthMm: 1.6, strength: 6 },
] as const;

/**
 * A reed's passes fitted jointly: one base surface and one removal per pass for each blade, on the cane, with the
 * errors that whole passes share. Cane only leaves, so what the passes have in common sharpens each of them, and the
 * bias of smoothing cancels in what was taken off.
 *
 * @param passes In order, with at least one reading between them.
 * @throws InputError without any reading.
 */
export function fitReed(passes: readonly FitPass[], options: FitOptions = {}): FittedReed {
  if (passes.every(({ readings }) => readings.length === 0))
    throw new InputError('passes: must hold readings, got none');
  const stepMm = options.stepMm ?? stepOf(passes);
  const span = caneSpan(passes);
  const first = passes[0]!;
  const ridge =
    ridgeZMm(passes) ?? first.overallLengthMm - (options.ridgeFromTipMm ?? USUAL_RIDGE_FROM_TIP_MM);
  const spaces = WARPS.map((warp) => baseSpace({ ridgeMm: ridge, ...warp }, span.fromZMm, span.toZMm));
  const known = knownNoise(options, stepMm);
  const placed = { alongMm: options.placementMm ?? DEFAULT_PLACEMENT_MM };
  const noise = { ...placed, acrossMm: placed.alongMm * ACROSS_SHARE };
  const readBlades = BLADES.filter((blade) => caneReadings(passes, blade).length > 0);
  const drafts = readBlades.map((blade) =>
    draft(passes, blade, spaces[0]!, { ...noise, seatingMm: known.sdMm }),
  );
  const { unsettled = [] } = options;
  const pairs =
    known.from === 'declared'
      ? drafts
          .flatMap((blade) => readingPairs(blade, noise))
          .filter(({ pass }) => !unsettled.includes(pass) && !unsettled.includes(pass - 1))
      : [];
  const estimate = seatingFromPairs(pairs, stepMm, known.sdMm);
  const seated = { ...noise, seatingMm: estimate ?? known.sdMm };
  const { space, roughness } = likeliestSpace(passes, drafts, spaces, seated);
  const variances = sharedVariances(passes.length, options.shared ?? usualSharedErrors(stepMm));
  const evidence: Partial<Record<Blade, BladeEvidence>> = {};
  drafts.forEach((blade, i) => {
    const prior = basePrior(space, roughness[i]!);
    const noisy = noisyReadings(passes, blade, seated);
    const read = [...new Set(noisy.map(({ pass }) => pass))].sort((a, b) => a - b);
    const layout = bladeLayout(space, removalSpace(span.fromZMm, span.toZMm), read);
    evidence[readBlades[i]!] = fitBlade(layout, prior, noisy, variances);
  });
  return assembleModel(passes, evidence, variances, seated, estimate ? 'passes' : known.from);
}

/** The space in which the blades' fullest passes are likeliest together, and each blade's roughness there. */
function likeliestSpace(
  passes: readonly FitPass[],
  drafts: readonly Draft[],
  spaces: readonly BaseSpace[],
  noise: NoiseModel,
): { space: BaseSpace; roughness: readonly Roughness[] } {
  const tried = spaces.map((space) => {
    const roughness = drafts.map((blade) =>
      chooseRoughness(space, baseReadings(blade, space, noise, passes)),
    );
    return { space, roughness, cost: roughness.reduce((sum, { cost }) => sum + cost, 0) };
  });
  return tried.reduce((best, other) => (other.cost < best.cost ? other : best));
}

/** Seating noise of one reading before the readings themselves are asked. */
export function knownNoise(options: FitOptions, stepMm: number): { sdMm: number; from: NoiseSource } {
  if (options.seating) return options.seating;
  return { sdMm: Math.hypot(usualSeatingMm(stepMm), resolutionSdMm(stepMm)), from: 'declared' };
}

/** The largest of the usual steps of which all readings are multiples. */
export function stepOf(passes: readonly Pick<FitPass, 'readings'>[]): number {
  const values = passes.flatMap(({ readings }) =>
    readings.filter((r) => r.repeats === 1).map((r) => r.thicknessMm),
  );
  const fits = (step: number) =>
    values.every((value) => Math.abs(value / step - Math.round(value / step)) < 1e-6);
  return [0.01, 0.005, 0.002].find(fits) ?? 0.001;
}

/** Mean of both blades' steepest places in the pass with the most readings. */
function ridgeZMm(passes: readonly FitPass[]): number | undefined {
  const fullest = passes.reduce((best, pass) => (pass.readings.length > best.readings.length ? pass : best));
  const places = BLADES.map((blade) => steepestPlace(caneReadings([fullest], blade))).filter(
    (z) => z !== undefined,
  );
  return places.length === 0 ? undefined : places.reduce((sum, z) => sum + z, 0) / places.length;
}

/** A first look at a blade, from its fullest pass alone: good enough for slopes. */
interface Draft {
  readonly readings: readonly CaneReading[];
  readonly slopes: readonly { along: number; across: number }[];
  readonly values: readonly number[];
}

function draft(passes: readonly FitPass[], blade: Blade, space: BaseSpace, noise: NoiseModel): Draft {
  const readings = caneReadings(passes, blade);
  const noisy = fullestPass(readings).map(({ reading, zMm }) => {
    const variance = (noise.seatingMm * reading.noiseFactor) ** 2 / reading.repeats;
    return { reading, zMm, pass: 0, variance, slopeAlong: 0 };
  });
  const layout = bladeLayout(space, removalSpace(0, 1), []);
  const { mean } = fitBlade(layout, usualBasePrior(space), noisy, new Float64Array(SHARED_PER_PASS));
  return { readings, ...surfaceAt(space, mean, readings) };
}

function fullestPass(readings: readonly CaneReading[]): CaneReading[] {
  const counts = new Map<number, number>();
  for (const { pass } of readings) counts.set(pass, (counts.get(pass) ?? 0) + 1);
  const most = Math.max(...counts.values());
  const fullest = [...counts].find(([, count]) => count === most)![0];
  return readings.filter(({ pass }) => pass === fullest);
}

function surfaceAt(space: BaseSpace, theta: Float64Array, readings: readonly CaneReading[]) {
  const at = (zMm: number, u: number, dz: number, du: number) => {
    const { index, weight } = baseRow(space, zMm, u, dz, du);
    return weight.reduce((sum, w, k) => sum + w * theta[index[k]!]!, 0);
  };
  return {
    slopes: readings.map(({ zMm, reading }) => ({
      along: at(zMm, reading.across, 1, 0),
      across: at(zMm, reading.across, 0, 1),
    })),
    values: readings.map(({ zMm, reading }) => at(zMm, reading.across, 0, 0)),
  };
}

function varianceOf(
  { reading, pass }: CaneReading,
  slope: { along: number; across: number },
  noise: NoiseModel,
  passes: readonly FitPass[],
): number {
  const halfWidth = passes[pass]!.halfWidthMm(reading.fromTipMm);
  const one = readingVariance(noise, slope.along, slope.across / halfWidth);
  return (one * reading.noiseFactor ** 2) / reading.repeats;
}

function baseReadings(from: Draft, space: BaseSpace, noise: NoiseModel, passes: readonly FitPass[]) {
  const places = new Map(from.readings.map((reading, i) => [reading, i]));
  return fullestPass(from.readings).map((reading) => ({
    row: baseRow(space, reading.zMm, reading.reading.across),
    valueMm: reading.reading.thicknessMm,
    variance: varianceOf(reading, from.slopes[places.get(reading)!]!, noise, passes),
  }));
}

/** Furthest apart on the cane that two readings may be to count as the same place, mm. */
const SAME_PLACE_MM = 0.45;

/** Pairs of readings of the same place in consecutive passes, the surface's own change between them taken off. */
function readingPairs(
  { readings, slopes, values }: Draft,
  noise: Omit<NoiseModel, 'seatingMm'>,
): ReadingPair[] {
  return readings.flatMap((later, i) => {
    let nearest: number | undefined;
    readings.forEach((earlier, j) => {
      const near = Math.abs(earlier.zMm - later.zMm);
      if (earlier.pass !== later.pass - 1 || Math.abs(earlier.reading.across - later.reading.across) > 0.01)
        return;
      if (
        near <= SAME_PLACE_MM &&
        (nearest === undefined || near < Math.abs(readings[nearest]!.zMm - later.zMm))
      )
        nearest = j;
    });
    if (nearest === undefined) return [];
    const earlier = readings[nearest]!;
    const drop = earlier.reading.thicknessMm - later.reading.thicknessMm - (values[nearest]! - values[i]!);
    const placement =
      2 * (slopes[i]!.along * noise.alongMm) ** 2 + 2 * (slopes[i]!.across * noise.acrossMm * 0.3) ** 2;
    return [{ pass: later.pass, dropMm: drop, placementVariance: placement }];
  });
}

function noisyReadings(passes: readonly FitPass[], blade: Draft, noise: NoiseModel): NoisyReading[] {
  return blade.readings.map((reading, i) => ({
    ...reading,
    variance: varianceOf(reading, blade.slopes[i]!, noise, passes),
    slopeAlong: blade.slopes[i]!.along,
  }));
}
