import { fitReed } from '../../src/surface/fit-reed.ts';
import { againstTruth, type CheckedReed } from './against-truth.ts';
import { BLADE_AND_SIDE_SD_MM, WAVES_SD_MM } from './generated-cane.ts';
import { generatedReed, GAUGES, PASS_ERRORS, type GeneratedReed } from './generated-reed.ts';
import { median, summarise, type Summary } from './summary.ts';

/** Figures of generated reeds beside their truth, for all and for parts of them. */
export interface StudyResult {
  readonly settings: readonly string[];
  readonly summaries: Readonly<Record<'all' | 'long' | 'short' | 'dial' | 'fine', Summary>>;
  /** Estimated over true noise of one reading: least, median, greatest, where passes tell it. */
  readonly noiseRatios: readonly [number, number, number];
}

/** Places are drawn apart from the reeds. */
const PLACES_SEED = 1_000_000;

/** Fits `count` generated reeds, one for each seed from `first` on. */
export function studySurfaces(count: number, first: number): StudyResult {
  const studied = Array.from({ length: count }, (_, k) => studyOne(first + k));
  const ratios = studied.flatMap(({ noiseRatio }) => noiseRatio ?? []);
  const of = (isIn: (reed: GeneratedReed) => boolean) =>
    summarise(studied.filter(({ reed }) => isIn(reed)).map(({ checked }) => checked));
  return {
    settings: settings(count, first),
    summaries: {
      all: of(() => true),
      long: of(({ style }) => style === 'long'),
      short: of(({ style }) => style === 'short'),
      dial: of(({ gauge }) => gauge === 'dial'),
      fine: of(({ gauge }) => gauge === 'fine'),
    },
    noiseRatios: [Math.min(...ratios), median(ratios), Math.max(...ratios)],
  };
}

function studyOne(seed: number): { reed: GeneratedReed; checked: CheckedReed; noiseRatio?: number } {
  const reed = generatedReed(seed);
  const model = fitReed(reed.passes);
  const { seatingMm, stepMm } = GAUGES[reed.gauge];
  const trueNoiseMm = Math.hypot(seatingMm, stepMm / Math.sqrt(12));
  return {
    reed,
    checked: againstTruth(reed, model, PLACES_SEED + seed),
    ...(model.noiseFrom === 'passes' && { noiseRatio: model.noiseMm.A! / trueNoiseMm }),
  };
}

function settings(count: number, first: number): string[] {
  const gauges = Object.entries(GAUGES).map(
    ([name, { seatingMm, placementMm, stepMm }]) =>
      `${name}: seating ${seatingMm} mm, placement ${placementMm} mm, step ${stepMm} mm`,
  );
  return [
    `${count} reeds, seeds ${first} to ${first + count - 1}, long and short scrape alike often, 2 to 4 passes`,
    ...gauges,
    `each later pass: length error ${PASS_ERRORS.lengthMm} mm, swelling ${PASS_ERRORS.swelling} (one standard deviation)`,
    `blades and sides differ by ${BLADE_AND_SIDE_SD_MM} mm, waves ${WAVES_SD_MM} mm (one standard deviation)`,
    '0 to 4 scrapes a pass of 0.01 to 0.05 mm, in a third of the passes an even one of 0.005 to 0.015 over a zone, a dig in 5 %',
    'later passes full (40 %), with gaps (20 %) or only where the knife was (40 %)',
  ];
}
