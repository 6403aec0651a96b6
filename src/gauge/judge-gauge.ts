import type { Gauge } from '../../shared/gauge.ts';
import { LONG_SCRAPE } from '../blade/starting-styles.ts';
import { believableChangeMm } from './believable-change.ts';
import { calibrationLine } from './calibration.ts';
import { readingNoise, type NoiseModel } from './reading-noise.ts';
import { repeatability } from './repeatability.ts';
import { resolutionU } from './resolution.ts';
import { zoneSlopes, type ZoneSlope } from './zone-slopes.ts';

/** Of a careful hand. Common practice, no source. */
const USUAL_SEATING_MM = 0.005;

/** What spoils a reading. */
export const CAUSES = ['step', 'seating', 'placement', 'zero', 'line'] as const;
export type Cause = (typeof CAUSES)[number];

/** A zone with the smallest change that may be believed there, and what makes it so large. */
export interface Believable {
  readonly name: string;
  /** Between two single readings of two sittings, 95 %. */
  readonly changeMm: number;
  /** Standard uncertainty that each cause gives one reading, mm; their squares add up to that of the reading. */
  readonly causes: Readonly<Record<Cause, number>>;
}

/** What may be believed of a gauge. */
export interface GaugeJudgement {
  /** Scatter of one reading where the blade is level, resolution included, one standard deviation. */
  readonly sdMm: number;
  /** Where that comes from. */
  readonly from: 'repeats' | 'declared' | 'usual';
  readonly dof: number;
  /** How well places are found along a blade, as declared or as is usual; one standard deviation. */
  readonly placementMm: number;
  /** By zone, the least first. */
  readonly believable: readonly Believable[];
}

/** What a judgement goes by. */
export type JudgedBy = Pick<Gauge, 'stepMm' | 'checks' | 'repeatStudies' | 'seatingSdMm' | 'placementSdMm'>;

/** Scatter of one reading by repeat studies, or as declared, or as is usual. */
export function readingScatter(gauge: JudgedBy): Pick<GaugeJudgement, 'sdMm' | 'from' | 'dof'> {
  const stations = gauge.repeatStudies.flatMap((study) => study.stations);
  if (stations.length > 0) {
    const { sdMm, dof } = repeatability(stations, gauge.stepMm);
    return { sdMm, dof, from: 'repeats' };
  }
  if (gauge.seatingSdMm !== undefined) return { sdMm: gauge.seatingSdMm, dof: Infinity, from: 'declared' };
  const sdMm = Math.max(USUAL_SEATING_MM, resolutionU(gauge.stepMm));
  return { sdMm, dof: Infinity, from: 'usual' };
}

/** Drops of the ball before a zero is read. */
const ZERO_DROPS = 3;

/** What each cause gives one reading. The zero of a sitting is one reading of three drops; the line errs with the thickness. */
function causesAt(
  { slope, thicknessMm }: ZoneSlope,
  stepMm: number,
  noise: NoiseModel,
  uSlope: number,
): Believable['causes'] {
  const step = Math.min(resolutionU(stepMm), noise.seatingMm);
  const seated = Math.sqrt(noise.seatingMm ** 2 - step ** 2);
  return {
    step,
    seating: seated,
    placement: Math.hypot(slope.along * noise.alongMm, slope.across * noise.acrossMm),
    zero: Math.hypot(step, seated / Math.sqrt(ZERO_DROPS)),
    line: uSlope * thicknessMm,
  };
}

/** Standard uncertainty of the slope of the last line through known thicknesses; 0 where none was read. */
function slopeU({ checks, stepMm }: JudgedBy, sdMm: number): number {
  const last = checks.findLast(({ known }) => known.length > 1);
  return (last && calibrationLine(last, stepMm, sdMm)?.uSlope) ?? 0;
}

/** A zero further off than this many standard uncertainties is odd, as on a control chart. Source: ISO 7870-2. */
const ODD_ZERO = 3;

/** How far from nought a zero may lie by its own scatter, mm. */
export function zeroLimitMm({ believable }: Pick<GaugeJudgement, 'believable'>): number {
  return ODD_ZERO * believable[0]!.causes.zero;
}

/**
 * Judges a gauge by its repeat studies, or by what was declared, or by what is usual.
 *
 * @param zones Of the finished blades that it reads.
 */
export function judgeGauge(
  gauge: JudgedBy,
  zones: readonly ZoneSlope[] = zoneSlopes(LONG_SCRAPE),
): GaugeJudgement {
  const { sdMm, from, dof } = readingScatter(gauge);
  const noise = readingNoise(sdMm, gauge.placementSdMm);
  const uSlope = slopeU(gauge, sdMm);
  const believable = zones.map((zone): Believable => {
    const causes = causesAt(zone, gauge.stepMm, noise, uSlope);
    return {
      name: zone.title,
      causes,
      changeMm: believableChangeMm(Math.hypot(...Object.values(causes)), 1, dof),
    };
  });
  return {
    sdMm,
    from,
    dof,
    placementMm: noise.alongMm,
    believable: believable.sort((a, b) => a.changeMm - b.changeMm),
  };
}
