import type { Gauge } from '../../shared/gauge.ts';
import { believableChangeMm, scatterAtMm, type Slope } from './believable-change.ts';
import { readingNoise } from './reading-noise.ts';
import { repeatability } from './repeatability.ts';
import { resolutionU } from './uncertainty-budget.ts';

/** A kind of place on a scraped blade and how steep it is there. */
interface PlaceKind {
  readonly name: string;
  readonly slope: Slope;
}

/** Slopes of a finished blade, mm per mm. Common practice, no source. */
const PLACES: readonly PlaceKind[] = [
  { name: 'Tip', slope: { along: 0.04, across: 0.01 } },
  { name: 'Blend', slope: { along: 0.1, across: 0.03 } },
  { name: 'Heart', slope: { along: 0.02, across: 0.01 } },
  { name: 'Channels', slope: { along: 0.01, across: 0.07 } },
];
/** Of a careful hand. Common practice, no source. */
const USUAL_SEATING_MM = 0.005;

/** What may be believed of a gauge. */
export interface GaugeJudgement {
  /** Scatter of one reading where the blade is level, resolution included, one standard deviation. */
  readonly sdMm: number;
  /** Where that comes from. */
  readonly from: 'repeats' | 'declared' | 'usual';
  readonly dof: number;
  /** How well places are found along a blade, as declared or as is usual; one standard deviation. */
  readonly placementMm: number;
  /** Smallest change between two single readings that is more than scatter, 95 %: by kind of place, the least first. */
  readonly believable: readonly { readonly name: string; readonly changeMm: number }[];
}

function seating(gauge: Gauge): Pick<GaugeJudgement, 'sdMm' | 'from' | 'dof'> {
  const stations = gauge.repeatStudies.flatMap((study) => study.stations);
  if (stations.length > 0) {
    const { sdMm, dof } = repeatability(stations, gauge.stepMm);
    return { sdMm, dof, from: 'repeats' };
  }
  if (gauge.seatingSdMm !== undefined) return { sdMm: gauge.seatingSdMm, dof: Infinity, from: 'declared' };
  const sdMm = Math.max(USUAL_SEATING_MM, resolutionU(gauge.stepMm));
  return { sdMm, dof: Infinity, from: 'usual' };
}

/** Judges a gauge by its repeat studies, or by what was declared, or by what is usual. */
export function judgeGauge(gauge: Gauge): GaugeJudgement {
  const { sdMm, from, dof } = seating(gauge);
  const noise = readingNoise(sdMm, gauge.placementSdMm);
  const believable = PLACES.map(({ name, slope }) => ({
    name,
    changeMm: believableChangeMm(scatterAtMm(noise, slope), 1, dof),
  }));
  return {
    sdMm,
    from,
    dof,
    placementMm: noise.alongMm,
    believable: believable.sort((a, b) => a.changeMm - b.changeMm),
  };
}
