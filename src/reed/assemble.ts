import type { Pass } from '../../shared/pass.ts';
import type { Planform } from '../../shared/planform.ts';
import type { Flag } from '../../shared/reading.ts';
import type { Reed } from '../../shared/reed.ts';
import type { Stamp } from '../../shared/stamp.ts';
import { assumedPlanform, halfWidthAt } from '../blade/planform.ts';
import { startingStyle, type StyleTemplate } from '../blade/starting-styles.ts';
import type { ZoneFrame } from '../blade/zones.ts';
import { distanceText, numberText, type NumberFormat } from '../words/format.ts';
import type { GaugeState } from '../gauge/correct-readings.ts';
import type { FitOptions } from '../surface/fit-reed.ts';
import type { FitPass, FitReading } from '../surface/reed-model.ts';
import { correctedReadings, type ReadPass, type ReadThickness } from './corrected-readings.ts';
import { placesReadTwice, type ReadTwice } from './read-twice.ts';
import { overallLengths, USUAL_OVERALL_MM } from './overall-lengths.ts';
import { gaugeOf, gaugeState, seatingOf, sharedOffsetMm, type ReadGauge } from './pass-gauge.ts';

/** Assumed where nothing was entered. Common practice, no source. */
const USUAL_THREAD_MM = 47;

/** How much less a flagged reading is trusted. Common practice, no source. */
export const NOISE_FACTORS: Readonly<Record<Flag, number>> = {
  ok: 1,
  weak: 3,
  doubtful: 3,
  'no-cane': 1,
  wire: 1,
};

/** A reed put together from its documents, ready to be fitted and to have its figures taken. */
export interface AssembledReed {
  readonly passes: readonly FitPass[];
  /** What the gauge of each pass was like. */
  readonly gauges: readonly GaugeState[];
  readonly controls: readonly (readonly ReadThickness[])[];
  /** Places of each pass that were read early and again late. */
  readonly readTwice: readonly (readonly ReadTwice[])[];
  readonly options: FitOptions;
  readonly style: StyleTemplate;
  readonly frame: ZoneFrame;
  readonly planform: Planform;
  /** What had to be assumed, in words; empty when all was entered. */
  readonly assumed: (writing: Pick<NumberFormat, 'decimal'>) => readonly string[];
}

/** What a pass says, whether it is kept or only read from a file. */
export type PassContent = Omit<Pass, 'kind' | 'reedId' | keyof Stamp>;

export interface ReedDocuments {
  readonly reed: Pick<Reed, 'label' | 'styleId' | 'planform' | 'lengths' | 'forOverallLengthMm' | 'tie'>;
  /** In any order. */
  readonly passes: readonly PassContent[];
  readonly style?: StyleTemplate;
  /** Those that passes may name. */
  readonly gauges?: readonly ReadGauge[];
  /** Half the blade's width, where it is not the reed's own planform: from the pass's tip, or from the cork. */
  readonly halfWidthMm?: (fromTipMm: number, fromCorkMm: number) => number;
}

/** The readings of a pass that the surface is fitted to: corrected, repeats averaged, controls left out. */
export function fitReadings(pass: ReadPass, gauge: GaugeState): FitReading[] {
  return averaged(correctedReadings(pass, gauge).filter(({ role }) => role === 'station'));
}

/** Puts a reed's documents together: corrected readings, geometry, zones, and what had to be assumed. */
export function assembleReed(documents: ReedDocuments): AssembledReed {
  const { reed, gauges = [] } = documents;
  const sorted = [...documents.passes].sort((a, b) => a.index - b.index);
  const style = documents.style ?? startingStyle(reed.styleId);
  const lengths = overallLengths(sorted);
  const threadMm = sorted.find((pass) => pass.threadMm !== undefined)?.threadMm ?? reed.tie?.threadMm;
  const firstOverall = lengths[0] ?? USUAL_OVERALL_MM;
  const planform = reed.planform ?? assumedPlanform(firstOverall, style.tipWidthMm);
  const halfWidth =
    documents.halfWidthMm ?? ((_: number, fromCorkMm: number) => halfWidthAt(planform, fromCorkMm));
  const states = sorted.map((pass) => gaugeState(pass, gauges));
  const corrected = sorted.map((pass, i) => correctedReadings(pass, states[i]!));
  // A blade reaches at least as far as it was read.
  const endFromCorkMm = Math.min(
    threadMm ?? USUAL_THREAD_MM,
    ...corrected.flatMap((readings, i) => readings.map(({ fromTipMm }) => lengths[i]! - fromTipMm)),
  );
  const passes = sorted.map((pass, i) => {
    const overallLengthMm = lengths[i]!;
    const stations = corrected[i]!.filter(({ role }) => role === 'station');
    return {
      index: pass.index,
      overallLengthMm,
      bladeLengthMm: overallLengthMm - endFromCorkMm,
      halfWidthMm: (fromTipMm: number) => halfWidth(fromTipMm, overallLengthMm - fromTipMm),
      readings: averaged(stations),
    };
  });
  const gauge = sorted.flatMap((pass) => gaugeOf(pass, gauges) ?? []).at(-1);
  const seating = seatingFromRepeats(corrected) ?? (gauge && seatingOf(gauge));
  const stepMm = gauge?.stepMm ?? sorted.find((pass) => pass.gaugeStepMm !== undefined)?.gaugeStepMm;
  return {
    passes,
    gauges: states,
    controls: corrected.map((readings) => readings.filter(({ role }) => role === 'control')),
    readTwice: corrected.map(placesReadTwice),
    options: {
      ...(stepMm !== undefined && { stepMm }),
      ...(seating && { seating }),
      ...(gauge?.placementSdMm !== undefined && { placementMm: gauge.placementSdMm }),
      zerosMm: sorted.map((pass, i) => sharedOffsetMm(pass, states[i]!)),
      ridgeFromTipMm: (reed.lengths ?? style.lengths).tipMm + 0.5,
    },
    style,
    frame: {
      lengths: reed.lengths ?? style.lengths,
      overallLengthMm: reed.forOverallLengthMm ?? firstOverall,
    },
    planform,
    assumed: (writing) => assumptions(documents, sorted, threadMm, planform, writing),
  };
}

function assumptions(
  { reed, halfWidthMm }: ReedDocuments,
  passes: readonly PassContent[],
  threadMm: number | undefined,
  planform: Planform,
  writing: Pick<NumberFormat, 'decimal'>,
) {
  const assumed: string[] = [];
  if (passes[0] && passes[0].overallLengthMm === undefined)
    assumed.push(`overall length ${distanceText(USUAL_OVERALL_MM, writing)}`);
  if (threadMm === undefined)
    assumed.push(`thread ${distanceText(USUAL_THREAD_MM, writing)} above the cork end`);
  if (!reed.planform && !halfWidthMm) assumed.push(planformWords(planform, writing));
  return assumed;
}

/** A planform in words: its widths at the tip and at a few distances from it. */
function planformWords(planform: Planform, writing: Pick<NumberFormat, 'decimal'>): string {
  const tipFromCorkMm = planform.widths.at(-1)!.fromCorkMm;
  const widths = [0, 5, 10, 15, 20].map((fromTipMm) => {
    const widthMm = 2 * halfWidthAt(planform, tipFromCorkMm - fromTipMm);
    return `${numberText(widthMm, 1, writing)} at ${fromTipMm}`;
  });
  return `the usual planform of the style, in mm wide at mm from the first tip ${widths.join(', ')}`;
}

/** Readings of one place averaged, with their number. */
function averaged(readings: readonly ReadThickness[]): FitReading[] {
  const places = new Map<string, ReadThickness[]>();
  for (const reading of readings) {
    const key = `${reading.blade} ${reading.fromTipMm} ${reading.across}`;
    places.set(key, [...(places.get(key) ?? []), reading]);
  }
  return [...places.values()].map((same) => ({
    blade: same[0]!.blade,
    fromTipMm: same[0]!.fromTipMm,
    across: same[0]!.across,
    thicknessMm: same.reduce((sum, { thicknessMm }) => sum + thicknessMm, 0) / same.length,
    repeats: same.length,
    noiseFactor: Math.max(...same.map(({ flag }) => NOISE_FACTORS[flag])),
    time: same.reduce((sum, { time }) => sum + time, 0) / same.length,
  }));
}

const FEWEST_DEGREES_OF_FREEDOM = 10;

/** Scatter within places that were read more than once, pooled; undefined with too few of them. */
function seatingFromRepeats(passes: readonly (readonly ReadThickness[])[]): FitOptions['seating'] {
  const places = new Map<string, number[]>();
  passes.forEach((readings, pass) =>
    readings.forEach(({ blade, fromTipMm, across, role, thicknessMm }) => {
      const key = [pass, blade, fromTipMm, across, role].join(' ');
      places.set(key, [...(places.get(key) ?? []), thicknessMm]);
    }),
  );
  let squares = 0;
  let free = 0;
  for (const values of places.values()) {
    const mean = values.reduce((sum, value) => sum + value, 0) / values.length;
    squares += values.reduce((sum, value) => sum + (value - mean) ** 2, 0);
    free += values.length - 1;
  }
  return free >= FEWEST_DEGREES_OF_FREEDOM && squares > 0
    ? { sdMm: Math.sqrt(squares / free), from: 'repeats' }
    : undefined;
}
