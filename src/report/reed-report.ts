import { BLADES, type Blade } from '../../shared/blade.ts';
import type { ReedFigures } from '../answers/record/record.ts';
import { reedFigures } from '../answers/record/reed-figures.ts';
import { TABLE_NAMES } from '../answers/record/record.ts';
import { takenByZone } from '../answers/record/taken-tables.ts';
import type { Figure, FigureTable } from '../figures/figure.ts';
import { expectedFrom, type Lessons } from '../answers/from-library.ts';
import { libraryWords, type FromLibrary } from '../answers/library-words.ts';
import { sayFault, sayReadAgain } from '../answers/fault-words.ts';
import { rectangleZone } from '../blade/zones.ts';
import type { Fault, PassFaults, PlaceToReadAgain } from '../faults/fault.ts';
import { findFaults } from '../faults/find-faults.ts';
import { faultOptions, judgedPasses } from '../faults/judged-passes.ts';
import { isOpen, whileOpen } from '../faults/open-questions.ts';
import { isBeyondReadings } from '../answers/probe-words.ts';
import { estimate, isOnBlade, pointFunctional } from '../figures/functional.ts';
import { removedAt, type RemovalSpan } from '../figures/removed.ts';
import { MOSTLY_UNREAD, unreadBetween, withUnread } from '../figures/unread.ts';
import type { ZoneRatio } from '../figures/zone-ratios.ts';
import { assembleReed, type ReedDocuments } from '../reed/assemble.ts';
import { fitReed } from '../surface/fit-reed.ts';
import type { ReedPosterior } from '../surface/reed-posterior.ts';
import type { NumberFormat } from '../words/format.ts';
import type { Estimate, FitPass, FitReading, NoiseSource } from '../surface/reed-model.ts';

/** How the report's sentences write figures. */
export const WRITING: NumberFormat = { unit: 'hundredths', decimal: 'point' };

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
  /** What the maker's other reeds teach, for a reed that was read in few places. */
  readonly lessons?: Lessons;
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
interface Removed {
  readonly removedMm: number;
  readonly uMm: number;
  /** Not read here before, or not after: what came off is not known, and expected to be none. */
  readonly notRead?: true;
}
interface RemovedReport extends RemovalSpan {
  readonly zones: Record<string, Removed>;
  /** `beyond` as among the blade's own places. */
  readonly at: (Omit<ReportPoint, 'blade'> & Removed & { readonly beyond?: true })[];
}

/** A figure of the record without its name. */
type FigureReport = Omit<Figure, 'of' | 'id'>;

/** A fault that the readings of a pass show, or ask about, with what it means. */
export type FaultReport = Fault & { readonly words: string };

export interface PassReport {
  readonly index: number;
  readonly overallLengthMm: number;
  readonly blades: Partial<Record<Blade, BladeReport>>;
  readonly balance: Record<string, Record<'blade' | 'hand' | 'side', Estimate>>;
  /** Means of zones over each other, both blades together; no unit. */
  readonly ratios: readonly Pick<ZoneRatio, 'upper' | 'lower' | 'ratio'>[];
  /** Every figure of the record, as it is laid out everywhere; in the JSON they stand by their ids as `figures`. */
  readonly tables: readonly FigureTable[];
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
  /** What the maker's other reeds did for these figures, with what is said of it; absent where they were not asked. */
  readonly fromLibrary?: FromLibrary & { readonly words: string };
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
  const { lessons = [] } = options;
  const families = reed.passes.length === 1 ? lessons.map(({ predictive }) => predictive) : [];
  const found = findFaults(judgedPasses(reed, documents.passes), { ...faultOptions(reed), families });
  const passes = withoutSlips(reed.passes, found);
  const { assembled, fromLibrary } = expectedFrom({ ...reed, passes }, lessons);
  const open = isOpen(found) ? whileOpen(passes, found, assembled.options) : assembled;
  const model = fitReed(open.passes, open.options);
  const benched = { reed: documents.reed, assembled: { ...reed, passes }, model, found };
  const rectangles = (options.rectangles ?? []).map(({ name, fromMm, toMm }) =>
    rectangleZone(name, fromMm, toMm),
  );
  const reportAt = (at: number): PassReport => ({
    ...reportPass(reedFigures({ benched, pass: at }, rectangles), model, options),
    ...reportFaults(found[at]!),
    setAside: slipsOf(reed.passes[at]!, found[at]!).map(({ blade, fromTipMm, across, thicknessMm }) => ({
      blade,
      fromTipMm,
      across,
      thicknessMm,
    })),
  });
  return {
    label: documents.reed.label,
    assumed: reed.assumed(WRITING),
    ...(fromLibrary && { fromLibrary: { ...fromLibrary, words: libraryWords(fromLibrary) } }),
    // From the last pass to the first, as the model looks back: each then costs the same.
    passes: [...passes.keys()].reverse().map(reportAt).reverse(),
  };
}

/** A reading that is known to be wrong says nothing of the cane, nor of the gauge. */
function withoutSlips(passes: readonly FitPass[], found: readonly PassFaults[]): readonly FitPass[] {
  const slips = passes.flatMap((pass, at) => slipsOf(pass, found[at]!));
  if (slips.length === 0) return passes;
  return passes.map((pass) => ({
    ...pass,
    readings: pass.readings.filter((reading) => !slips.includes(reading)),
  }));
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

function reportPass(
  figures: ReedFigures,
  model: ReedPosterior,
  options: ReportOptions,
): Omit<PassReport, 'faults' | 'readAgain' | 'setAside'> {
  const { own, zones, believable } = figures;
  const { index, overallLengthMm } = model.passes[own.pass]!;
  const blades: Partial<Record<Blade, BladeReport>> = {};
  for (const blade of BLADES.filter((name) => model.blades[name])) {
    blades[blade] = {
      noiseMm: model.noiseMm[blade]!,
      noiseFrom: model.noiseFrom,
      zones: Object.fromEntries(
        zones.flatMap(({ name, blades: means }) => {
          const mean = means[blade];
          return mean ? [[name, { meanMm: mean.valueMm, uMm: mean.uMm }]] : [];
        }),
      ),
      believableMm: Object.fromEntries(believable[blade]!),
      at: pointsOn(model, own.pass, options, blade).map(({ fromTipMm, across }) => {
        const place = { blade, pass: own.pass, fromTipMm, across };
        const { valueMm, uMm } = estimate(model, pointFunctional(model, place));
        const beyond = isBeyondReadings(own.benched, own.pass, place);
        return { fromTipMm, across, thicknessMm: valueMm, uMm, ...(beyond && { beyond }) };
      }),
    };
  }
  const balanced = zones.flatMap(({ name, balance }) => (balance ? [[name, { ...balance }] as const] : []));
  return {
    index,
    overallLengthMm,
    blades,
    balance: Object.fromEntries(balanced),
    ratios: figures.ratios.map(({ upper, lower, ratio }) => ({ upper, lower, ratio })),
    ...(own.pass > 0 && { removed: reportRemoved(model, figures, options) }),
    tables: [
      ...TABLE_NAMES.map(figures.table),
      ...(own.pass > 0 ? [takenByZone(figures, own.pass - 1)] : []),
    ],
  };
}

/** The figures of a pass by their ids. */
export function figuresById({ tables }: Pick<PassReport, 'tables'>): Record<string, FigureReport> {
  const figures = tables.flatMap(({ rows }) => rows.flatMap((row) => row.figures));
  return Object.fromEntries(
    figures.map((figure) => {
      const { of: _of, id, ...rest } = figure;
      return [id, rest];
    }),
  );
}

/** The places asked for that lie on a blade after a pass: nothing is said of what is not cane. */
function pointsOn(
  model: ReedPosterior,
  pass: number,
  { at = [] }: ReportOptions,
  blade: Blade,
): readonly ReportPoint[] {
  return at.filter((point) => point.blade === blade && isOnBlade(model, { ...point, pass }));
}

function reportRemoved(
  model: ReedPosterior,
  figures: ReedFigures,
  options: ReportOptions,
): Partial<Record<Blade, RemovedReport>> {
  const { assembled } = figures.own.benched;
  const { pair, spans, byZone } = figures.removed(figures.own.pass - 1);
  const removed: Partial<Record<Blade, RemovedReport>> = {};
  for (const blade of BLADES) {
    const [means, span] = [byZone[blade], spans[blade]];
    if (!means || !span) continue;
    const unread = unreadBetween(assembled.passes, pair, blade);
    removed[blade] = {
      ...span,
      zones: Object.fromEntries(
        [...means].map(([name, { mean, notRead }]) => [
          name,
          { removedMm: mean.valueMm, uMm: mean.uMm, ...(notRead && { notRead }) },
        ]),
      ),
      at: pointsOn(model, pair.after, options, blade).map(({ fromTipMm, across }) => {
        const share = unread(fromTipMm, across);
        const figure = estimate(model, removedAt(model, pair, blade, fromTipMm, across));
        const { valueMm, uMm } = withUnread(figure, share);
        const isOutside = isBeyondReadings({ assembled }, pair.after, { blade, fromTipMm, across });
        return {
          ...{ fromTipMm, across, removedMm: valueMm, uMm },
          ...(share > MOSTLY_UNREAD && { notRead: true }),
          ...(isOutside && { beyond: true }),
        };
      }),
    };
  }
  return removed;
}
