import { BLADES, type Blade } from '../../shared/blade.ts';
import { sayFault, sayReadAgain } from '../answers/fault-words.ts';
import { placeZones, rectangleZone, type PlacedZone } from '../blade/zones.ts';
import type { Fault, PassFaults, PlaceToReadAgain } from '../faults/fault.ts';
import { findFaults } from '../faults/find-faults.ts';
import { faultOptions, judgedPasses } from '../faults/judged-passes.ts';
import { unsettledPasses } from '../faults/unsettled-passes.ts';
import { isBeyondReadings } from '../answers/probe-words.ts';
import { believableMap, believableOverMm } from '../figures/believable-map.ts';
import { estimate, isOnBlade, pointFunctional } from '../figures/functional.ts';
import { mapGrid } from '../figures/surface-map.ts';
import { zoneArea } from '../figures/zone-mean.ts';
import {
  removalSpan,
  removedAt,
  removedByZone,
  UNREAD_REMOVAL_SD_MM,
  type PassPair,
  type RemovalSpan,
} from '../figures/removed.ts';
import { zoneRatios, type ZoneRatio } from '../figures/zone-ratios.ts';
import { zoneFigures } from '../figures/zone-figures.ts';
import { assembleReed, type AssembledReed, type ReedDocuments } from '../reed/assemble.ts';
import { fitReed } from '../surface/fit-reed.ts';
import type { FittedReed } from '../surface/fitted-reed.ts';
import type { Writing } from '../words/format.ts';
import type { Estimate, FitPass, FitReading, NoiseSource } from '../surface/reed-model.ts';

/** How the report's sentences write figures. */
export const WRITING: Writing = { unit: 'hundredths', decimal: 'point' };

/** A place on a blade at which values are wanted. */
export interface ReportPoint {
  readonly blade: Blade;
  readonly fromTipMm: number;
  readonly across: number;
}

export interface ReportOptions {
  readonly at?: readonly ReportPoint[];
  /** Full-width rectangles between two distances from the tip, added to the zones. */
  readonly rectangles?: readonly { readonly name: string; readonly fromMm: number; readonly toMm: number }[];
}

interface ZoneMean {
  readonly meanMm: number;
  readonly uMm: number;
}
interface BladeReport {
  readonly noiseMm: number;
  readonly noiseFrom: NoiseSource;
  readonly zones: Record<string, ZoneMean>;
  /** The smallest change to believe between two single readings at a usual place of a zone, 95 %, mm. */
  readonly believableMm: Record<string, number>;
  readonly at: (Omit<ReportPoint, 'blade'> & {
    readonly thicknessMm: number;
    readonly uMm: number;
    /** The place lies beyond the outermost readings. */
    readonly beyond?: true;
  })[];
}
interface RemovedReport extends RemovalSpan {
  readonly zones: Record<string, { readonly removedMm: number; readonly uMm: number }>;
  readonly at: (Omit<ReportPoint, 'blade'> & { readonly removedMm: number; readonly uMm: number })[];
}

/** A fault that the readings of a pass show, or ask about, with what it means. */
export type FaultReport = Fault & { readonly words: string };

export interface PassReport {
  readonly index: number;
  readonly overallLengthMm: number;
  readonly blades: Partial<Record<Blade, BladeReport>>;
  readonly balance: Record<string, Record<'blade' | 'hand' | 'side', Estimate>>;
  /** Means of zones over each other, both blades together; no unit. */
  readonly ratios: readonly Pick<ZoneRatio, 'upper' | 'lower' | 'ratio'>[];
  /** What came off since the pass before; absent in the first. */
  readonly removed?: Partial<Record<Blade, RemovedReport>>;
  readonly faults: readonly FaultReport[];
  /** Isolated low readings: a dig, or a slip. They count. */
  readonly readAgain: readonly (PlaceToReadAgain & { readonly words: string })[];
  /** Readings with digits turned, by name: no figure of this report uses them. */
  readonly setAside: readonly (ReportPoint & { readonly thicknessMm: number })[];
}

export interface ReedReport {
  readonly label: string;
  readonly assumed: readonly string[];
  readonly passes: readonly PassReport[];
}

/**
 * Every figure of a reed, pass by pass. `uMm` is a standard uncertainty (k = 1); points and zones of `removed` are
 * places on the later pass's blade.
 *
 * @throws InputError when no pass holds a reading.
 */
export function reportReed(documents: ReedDocuments, options: ReportOptions = {}): ReedReport {
  const reed = assembleReed(documents);
  const found = findFaults(judgedPasses(reed, documents.passes), faultOptions(reed));
  const passes = reed.passes.map((pass, at) => withoutSlips(pass, found[at]!));
  const model = fitReed(passes, { ...reed.options, unsettled: unsettledPasses(found) });
  return {
    label: documents.reed.label,
    assumed: reed.assumed,
    passes: model.passes.map((_, at) => ({
      ...reportPass(reed, model, at, options),
      ...reportFaults(found[at]!),
      setAside: slipsOf(reed.passes[at]!, found[at]!).map(({ blade, fromTipMm, across, thicknessMm }) => ({
        blade,
        fromTipMm,
        across,
        thicknessMm,
      })),
    })),
  };
}

/** A reading that is known to be wrong says nothing of the cane, nor of the gauge. */
function withoutSlips(pass: FitPass, found: PassFaults): FitPass {
  const slips = slipsOf(pass, found);
  return { ...pass, readings: pass.readings.filter((reading) => !slips.includes(reading)) };
}

function slipsOf({ readings }: FitPass, { faults }: PassFaults): FitReading[] {
  const named = faults.filter(({ kind, grade }) => kind === 'digits' && grade === 'named');
  return readings.filter((reading) =>
    named.some(
      ({ blade, place }) =>
        blade === reading.blade && place?.fromTipMm === reading.fromTipMm && place.across === reading.across,
    ),
  );
}

function reportFaults({ faults, readAgain }: PassFaults): Pick<PassReport, 'faults' | 'readAgain'> {
  return {
    faults: faults.map((fault) => ({ ...fault, words: sayFault(fault, WRITING) })),
    readAgain: readAgain.map((place) => ({ ...place, words: sayReadAgain(place, WRITING) })),
  };
}

/** The zones of a pass: the style's and the rectangles asked for. */
export function zonesOfPass(
  { style, frame }: Pick<AssembledReed, 'style' | 'frame'>,
  overallLengthMm: number,
  rectangles: ReportOptions['rectangles'] = [],
): PlacedZone[] {
  return [
    ...placeZones(style, frame, overallLengthMm),
    ...rectangles.map(({ name, fromMm, toMm }) => rectangleZone(name, fromMm, toMm)),
  ];
}

function reportPass(
  reed: AssembledReed,
  model: FittedReed,
  at: number,
  options: ReportOptions,
): Omit<PassReport, 'faults' | 'readAgain' | 'setAside'> {
  const { index, overallLengthMm } = model.passes[at]!;
  const zones = zonesOfPass(reed, overallLengthMm, options.rectangles);
  const figures = zones.map((zone) => zoneFigures(model, at, zone));
  const blades: Partial<Record<Blade, BladeReport>> = {};
  for (const blade of BLADES.filter((name) => model.blades[name])) {
    blades[blade] = {
      noiseMm: model.noiseMm[blade]!,
      noiseFrom: model.noiseFrom,
      zones: Object.fromEntries(
        figures.flatMap(({ name, blades: means }) => {
          const mean = means[blade];
          return mean ? [[name, { meanMm: mean.valueMm, uMm: mean.uMm }]] : [];
        }),
      ),
      believableMm: believableByZone(model, at, blade, zones),
      at: pointsOn(model, at, options, blade).map(({ fromTipMm, across }) => {
        const place = { blade, pass: at, fromTipMm, across };
        const { valueMm, uMm } = estimate(model, pointFunctional(model, place));
        const beyond = isBeyondReadings({ assembled: reed }, at, place);
        return { fromTipMm, across, thicknessMm: valueMm, uMm, ...(beyond && { beyond }) };
      }),
    };
  }
  const balanced = figures.flatMap(({ name, balance }) => (balance ? [[name, { ...balance }] as const] : []));
  return {
    index,
    overallLengthMm,
    blades,
    balance: Object.fromEntries(balanced),
    ratios: zoneRatios(model, at, zones).map(({ upper, lower, ratio }) => ({ upper, lower, ratio })),
    ...(at > 0 && { removed: reportRemoved(model, { before: at - 1, after: at }, zones, options) }),
  };
}

/** The places asked for that lie on a blade after a pass: nothing is said of what is not cane. */
function pointsOn(
  model: FittedReed,
  pass: number,
  { at = [] }: ReportOptions,
  blade: Blade,
): readonly ReportPoint[] {
  return at.filter((point) => point.blade === blade && isOnBlade(model, { ...point, pass }));
}

const BELIEVABLE_GRID = { along: 61, across: 31 };

function believableByZone(
  model: FittedReed,
  pass: number,
  blade: Blade,
  zones: readonly PlacedZone[],
): Record<string, number> {
  const geometry = model.passes[pass]!;
  const grid = mapGrid(geometry.bladeLengthMm, BELIEVABLE_GRID.along, BELIEVABLE_GRID.across);
  const map = believableMap(model, blade, pass, grid);
  return Object.fromEntries(
    zones.flatMap((zone) => {
      const changeMm = believableOverMm(map, zoneArea(zone, geometry));
      return changeMm === undefined ? [] : [[zone.name, changeMm]];
    }),
  );
}

function reportRemoved(
  model: FittedReed,
  pair: PassPair,
  zones: readonly PlacedZone[],
  options: ReportOptions,
): Partial<Record<Blade, RemovedReport>> {
  const byZone = removedByZone(model, pair, zones);
  const removed: Partial<Record<Blade, RemovedReport>> = {};
  for (const blade of BLADES) {
    const means = byZone[blade];
    if (!means) continue;
    const span = removalSpan(model, pair, blade);
    const doubt = (uMm: number) => (span.notRead ? Math.hypot(uMm, UNREAD_REMOVAL_SD_MM) : uMm);
    removed[blade] = {
      ...span,
      zones: Object.fromEntries(
        [...means].map(([name, { mean }]) => [name, { removedMm: mean.valueMm, uMm: doubt(mean.uMm) }]),
      ),
      at: pointsOn(model, pair.after, options, blade).map(({ fromTipMm, across }) => {
        const { valueMm, uMm } = estimate(model, removedAt(model, pair, blade, fromTipMm, across));
        return { fromTipMm, across, removedMm: valueMm, uMm: doubt(uMm) };
      }),
    };
  }
  return removed;
}
