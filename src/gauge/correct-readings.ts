import type { Pass } from '../../shared/pass.ts';
import type { Reading } from '../../shared/reading.ts';
import type { StraightLine } from './straight-line.ts';
import { resolutionU } from './resolution.ts';

/** What is known of the gauge that a pass was read with. */
export interface GaugeState {
  readonly stepMm: number;
  /** Thickness of the tongue, where the gauge was zeroed without it. */
  readonly tongueMm?: number;
  /** Shown against true thickness, both counted from the zero. */
  readonly line?: StraightLine;
}

/** A reading that has a number, with the thickness that it stands for. */
export interface CorrectedReading {
  readonly reading: Reading;
  readonly thicknessMm: number;
  /** When it was taken: 0 for the first reading of its pass, 1 for the last. */
  readonly time: number;
}

/** Errors that all readings of one pass share: thickness is off by `zero + span * thickness`. */
export interface SharedGaugeError {
  readonly zeroVarianceMm2: number;
  readonly spanVariance: number;
  readonly zeroSpanCovarianceMm: number;
}

/**
 * A zero that was set before a pass and not noted down, one standard deviation. A careful maker's repeats within 0.002 to
 * 0.005 mm on a dial of 0.01 mm, which is about three of them, and within less on a finer gauge; half of its variance is
 * drift. Common practice, no source.
 */
export function usualZeroUMm(stepMm: number): number {
  return 0.0005 + 0.1 * stepMm;
}

/** The span of a gauge that was never checked. Common practice, no source. */
const UNCHECKED_SPAN_U = 0.003;

type ZeroedPass = Pick<Pass, 'readings' | 'zeroBeforeMm' | 'zeroAfterMm'>;

/**
 * Thickness from what the gauge showed: less the zero, which drifts evenly from before to after, less the tongue, through
 * the calibration line. Time is the readings' own where all of them carry it, otherwise their order. Readings without a
 * number are left out; the readings themselves stay as they were.
 */
export function correctReadings(pass: ZeroedPass, gauge: GaugeState): readonly CorrectedReading[] {
  const times = readingTimes(pass.readings);
  const { tongueMm = 0, line } = gauge;
  return pass.readings.flatMap((reading, i) => {
    if (reading.thicknessMm === undefined) return [];
    const time = times[i]!;
    const net = reading.thicknessMm - zeroAt(pass, time) - tongueMm;
    return [{ reading, time, thicknessMm: line ? (net - line.intercept) / line.slope : net }];
  });
}

/** What the gauge shows for a thickness at the beginning of a pass: the correction the other way round. */
export function shownMm(thicknessMm: number, pass: Omit<ZeroedPass, 'readings'>, gauge: GaugeState): number {
  const { tongueMm = 0, line } = gauge;
  return (line ? line.intercept + line.slope * thicknessMm : thicknessMm) + tongueMm + zeroAt(pass, 0);
}

/**
 * Variances of the errors that the readings of a pass share after correction: the zero's resolution and drift, and the
 * calibration line's own covariance.
 */
export function sharedGaugeError(
  pass: Pick<Pass, 'zeroBeforeMm' | 'zeroAfterMm'>,
  gauge: GaugeState,
): SharedGaugeError {
  const { line, stepMm } = gauge;
  const zeroU = zeroUMm(pass, stepMm);
  if (!line)
    return { zeroVarianceMm2: zeroU ** 2, spanVariance: UNCHECKED_SPAN_U ** 2, zeroSpanCovarianceMm: 0 };
  const scale = line.slope ** 2;
  return {
    zeroVarianceMm2: (zeroU ** 2 + line.uIntercept ** 2) / scale,
    spanVariance: line.uSlope ** 2 / scale,
    zeroSpanCovarianceMm: line.covariance / scale,
  };
}

/**
 * Setting, rounding and drift. A zero noted as 0 was set by its mark, finer than the step; any other was read, and
 * rounded. The way it went between two readings is unknown: rectangular over the drift.
 */
function zeroUMm(
  { zeroBeforeMm, zeroAfterMm }: Pick<Pass, 'zeroBeforeMm' | 'zeroAfterMm'>,
  stepMm: number,
): number {
  const half = usualZeroUMm(stepMm) / Math.SQRT2;
  const isRead = (zeroBeforeMm ?? 0) !== 0 || (zeroAfterMm ?? 0) !== 0;
  const drift =
    zeroBeforeMm === undefined || zeroAfterMm === undefined
      ? half
      : Math.abs(zeroAfterMm - zeroBeforeMm) / Math.sqrt(12);
  return Math.hypot(half, drift, isRead ? resolutionU(stepMm) : 0);
}

/** What the gauge shows on the bare tongue at a time from 0, before the readings, to 1, after them. */
function zeroAt({ zeroBeforeMm, zeroAfterMm }: Omit<ZeroedPass, 'readings'>, time: number): number {
  const before = zeroBeforeMm ?? zeroAfterMm ?? 0;
  const after = zeroAfterMm ?? before;
  return before + (after - before) * time;
}

/** From 0 for the first reading to 1 for the last. */
function readingTimes(readings: readonly Reading[]): readonly number[] {
  const seconds = readings.map((reading) => reading.seconds);
  const clock = seconds.every((second) => second !== undefined) ? seconds : readings.map((_, i) => i);
  const [first, last] = [Math.min(...clock), Math.max(...clock)];
  return clock.map((second) => (last > first ? (second - first) / (last - first) : 0.5));
}
