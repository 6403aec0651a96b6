import type { Gauge } from '../../shared/gauge.ts';
import type { Pass } from '../../shared/pass.ts';
import { checkHistory, lineAt } from '../gauge/calibration.ts';
import { sharedGaugeError, type GaugeState } from '../gauge/correct-readings.ts';
import { repeatability } from '../gauge/repeatability.ts';
import type { FitOptions } from '../surface/fit-reed.ts';

/** What is used of a gauge's document. */
export type ReadGauge = Pick<
  Gauge,
  'id' | 'stepMm' | 'tongueMm' | 'seatingSdMm' | 'placementSdMm' | 'checks' | 'repeatStudies'
>;

/** Smallest step of a usual dial. Common practice, no source. */
const USUAL_STEP_MM = 0.01;
/** A pass without a day was read after all checks. */
const AFTER_ALL = '9999-12-31T00:00:00Z';

type Taken = Pick<Pass, 'gaugeId' | 'gaugeStepMm' | 'takenAt'>;

/** The gauge that a pass names, among those that are known. */
export function gaugeOf({ gaugeId }: Taken, gauges: readonly ReadGauge[]): ReadGauge | undefined {
  return gauges.find(({ id }) => id === gaugeId);
}

/** What the gauge of a pass was like when the pass was read; a usual dial where it names none. */
export function gaugeState(pass: Taken, gauges: readonly ReadGauge[]): GaugeState {
  const gauge = gaugeOf(pass, gauges);
  if (!gauge) return { stepMm: pass.gaugeStepMm ?? USUAL_STEP_MM };
  const { stepMm, tongueMm, checks } = gauge;
  const scatterMm = seatingOf(gauge)?.sdMm ?? stepMm / 2;
  const line = lineAt(checkHistory(checks, stepMm, scatterMm), pass.takenAt ?? AFTER_ALL);
  return { stepMm, ...(tongueMm !== undefined && { tongueMm }), ...(line && { line }) };
}

/** About what a blade measures between tip and back. Common practice, no source. */
const USUAL_THICKNESS_MM = 0.3;

/**
 * What all readings of a pass may be off by together, one standard deviation: by its zero, and by the calibration line
 * where the cane is about as thick as a blade is. A gauge whose span was never checked measures in its own millimetres.
 *
 * @returns undefined where neither a zero was noted nor the gauge checked: then it is as usual.
 */
export function sharedOffsetMm(pass: Pick<Pass, 'zeroBeforeMm' | 'zeroAfterMm'>, gauge: GaugeState) {
  const isNoted = pass.zeroBeforeMm !== undefined || pass.zeroAfterMm !== undefined;
  if (!isNoted && !gauge.line) return undefined;
  const { zeroVarianceMm2, zeroSpanCovarianceMm, spanVariance } = sharedGaugeError(pass, gauge);
  if (!gauge.line) return Math.sqrt(zeroVarianceMm2);
  return Math.sqrt(
    zeroVarianceMm2 + 2 * USUAL_THICKNESS_MM * zeroSpanCovarianceMm + USUAL_THICKNESS_MM ** 2 * spanVariance,
  );
}

/** Fewest degrees of freedom from which a scatter is taken instead of what is declared. Common practice, no source. */
const FEWEST_DEGREES_OF_FREEDOM = 10;

/** Scatter of one reading from the gauge's repeat studies, or as declared; undefined where neither is there. */
export function seatingOf({ repeatStudies, stepMm, seatingSdMm }: ReadGauge): FitOptions['seating'] {
  const stations = repeatStudies.flatMap((study) => study.stations);
  if (stations.length > 0) {
    const { sdMm, dof } = repeatability(stations, stepMm);
    if (dof >= FEWEST_DEGREES_OF_FREEDOM) return { sdMm, from: 'study' };
  }
  return seatingSdMm === undefined ? undefined : { sdMm: seatingSdMm, from: 'declared' };
}
