import { BLADES, type Blade } from '../../shared/blade.ts';
import type { FitReading } from '../surface/reed-model.ts';
import { TABLE_STEP_MM, type CaneState, type Column } from './cane-state.ts';
import type { ReadTwice } from '../reed/read-twice.ts';
import { climb, type Place } from './climb.ts';
import { growthOf, lessDrift } from './drift.ts';
import { untouchedLogLikelihood, zoneLogLikelihood, type Changes } from './scraping-likelihood.ts';
import {
  labellingOf,
  offsetsAlong,
  trueAcross,
  trueBlade,
  type Labelling,
  type Offsets,
  type OffsetSuspicion,
  type Suspicion,
} from './suspicion.ts';

/** A pass to be judged, with its readings of untouched cane beside those of stations. */
export interface JudgedPass {
  readonly index: number;
  readonly overallLengthMm: number;
  readonly readings: readonly FitReading[];
  readonly controls: readonly FitReading[];
  /** Places that were read early and again late. */
  readonly readTwice?: readonly ReadTwice[];
  readonly soakMin?: number;
  /** The knife slipped before it: a low place is no riddle. */
  readonly accident?: boolean;
}

/** Standard deviations of one reading's seating, resolution included, and of its placement along, mm. */
export interface Noise {
  readonly seatingMm: number;
  readonly placementMm: number;
}

/** What earlier passes tell of the cane: as scraped, and of its untouched part. */
export interface Cane {
  readonly stations: CaneState;
  readonly controls: CaneState;
  /** How long the reed was soaked for them, on the average. */
  readonly soakMin?: number;
}

/** A reading beside what the cane was. */
export interface Change {
  readonly reading: FitReading;
  readonly expectedMm: number;
  /** Positive where cane seems to have grown. */
  readonly changeMm: number;
  readonly uMm: number;
}

/** A pass under some suspicions, with the offsets that explain it best. */
export interface Explanation {
  readonly suspicions: readonly Suspicion[];
  readonly labelling: Labelling;
  /** Of the suspicions and of what sound passes share. */
  readonly offsets: Offsets;
  /** Amount of each offset, by kind and blade. */
  readonly amounts: ReadonlyMap<string, number>;
  readonly logLikelihood: number;
  readonly ofControls: number;
  readonly changes: readonly Change[];
}

/** What sound passes share, one standard deviation: lengths of two passes together, wetness, zero. */
const NUISANCES: readonly (OffsetSuspicion & { readonly sd: number })[] = [
  { kind: 'shifted', blade: 'both', sd: 0.06 },
  { kind: 'swelling', blade: 'both', sd: 0.01 },
  { kind: 'zero', blade: 'both', sd: 0.002 },
];
/** How large a fault is, one standard deviation. Common practice, no source. */
const FAULT_SD = { shifted: 0.8, swelling: 0.025, zero: 0.025, drift: 0.025 };
/** Offsets of sound passes never win back as much log-likelihood: what begins so far below is not searched. */
const HOPELESS = 40;
const STARTS = [-1, -0.4, 0.4, 1];
/** Where tip, blend and heart end, mm from the tip. */
const ZONES_END_MM = [3.5, 5.5, 9, Infinity];
/** Log-likelihood of a reading beyond the cane that is known: any of a range of some hundredths. */
const OUT_OF_SIGHT = -Math.log(0.008 * Math.sqrt(2 * Math.PI)) - 0.5;
const BEYOND_MM = 0.1;

/** How likely a pass is under some suspicions, by the offsets along its axes, in units of their standard deviations. */
interface Search {
  readonly axes: readonly Axis[];
  readonly labelling: Labelling;
  readonly score: (x: Float64Array) => number;
  readonly offsetsAt: (x: Float64Array) => Offsets;
  readonly untouchedAt: (offsets: Offsets) => number;
  /** Changes of stations. */
  readonly changesAt: (offsets: Offsets) => Change[];
}

export function searchOf(
  pass: JudgedPass,
  cane: Cane,
  noise: Noise,
  suspicions: readonly Suspicion[],
): Search {
  const labelling = labellingOf(suspicions);
  const stations = place(pass, pass.readings, cane.stations, noise, labelling);
  const controls = groupOf(place(pass, pass.controls, cane.controls, noise, labelling));
  const growth = growthOf(pass, noise);
  const zones = zonesOf(stations);
  const nowhere = (pass.readings.length - stations.length) * OUT_OF_SIGHT;
  const axes = axesOf(suspicions);
  const offsetsAt = (x: Float64Array) =>
    offsetsAlong(
      axes,
      axes.map(({ sd }, i) => x[i]! * sd),
    );
  const untouchedAt = (offsets: Offsets) =>
    untouchedLogLikelihood(changesOf(controls, noise, offsets)) +
    untouchedLogLikelihood(lessDrift(growth, offsets.driftMm));
  const score = (x: Float64Array) => {
    const offsets = offsetsAt(x);
    const scraped = zones.reduce(
      (sum, blades) => sum + zoneLogLikelihood(blades.map((group) => changesOf(group, noise, offsets))),
      nowhere,
    );
    return scraped + untouchedAt(offsets) - 0.5 * x.reduce((sum, xi) => sum + xi * xi, 0);
  };
  const changesAt = (offsets: Offsets) => describe(changesOf(groupOf(stations), noise, offsets));
  return { axes, labelling, score, offsetsAt, untouchedAt, changesAt };
}

/**
 * The offsets under which a pass is likeliest, given what it is suspected of; amounts of sound passes are nuisances.
 *
 * @param options `from` is an explanation to start at; no offset goes beyond `bound` of its standard deviations.
 */
export function explain(
  pass: JudgedPass,
  cane: Cane,
  noise: Noise,
  suspicions: readonly Suspicion[],
  { from, bound = Infinity }: { readonly from?: Explanation; readonly bound?: number } = {},
): Explanation {
  const { axes, labelling, score, offsetsAt, untouchedAt, changesAt } = searchOf(
    pass,
    cane,
    noise,
    suspicions,
  );
  const start = startOf(axes, score, bound, from);
  const isHopeless = from !== undefined && start.value < from.logLikelihood - HOPELESS;
  const best = isHopeless ? start : climb(score, start.x, bound, start.value);
  const offsets = offsetsAt(best.x);
  return {
    suspicions,
    labelling,
    offsets,
    amounts: new Map(axes.map((axis, i) => [keyOf(axis), best.x[i]! * axis.sd])),
    logLikelihood: best.value,
    ofControls: untouchedAt(offsets),
    changes: changesAt(offsets),
  };
}

/** Changes of untouched cane under a labelling, offsets left aside. */
export function controlChanges(
  pass: JudgedPass,
  cane: Cane,
  noise: Noise,
  labelling: Labelling,
): readonly Change[] {
  const controls = groupOf(place(pass, pass.controls, cane.controls, noise, labelling));
  return describe(changesOf(controls, noise, offsetsAlong([], [])));
}

export interface Axis extends OffsetSuspicion {
  readonly sd: number;
  readonly suspicion?: Suspicion;
}

function axesOf(suspicions: readonly Suspicion[]): Axis[] {
  const offsets = suspicions.filter((suspicion) => suspicion.kind !== 'labels');
  const sound = NUISANCES.filter(({ kind }) =>
    offsets.every((suspicion) => suspicion.kind !== kind || suspicion.blade !== 'both'),
  );
  return [
    ...sound,
    ...offsets.map((suspicion) => ({ ...suspicion, sd: FAULT_SD[suspicion.kind], suspicion })),
  ];
}

export const keyOf = ({ kind, blade }: OffsetSuspicion) => `${kind} ${blade}`;

/** How large an offset is under an explanation; 0 for labels. */
export function amountOf({ amounts }: Explanation, suspicion: Suspicion): number {
  return suspicion.kind === 'labels' ? 0 : (amounts.get(keyOf(suspicion)) ?? 0);
}

/** What stood before or nothing, and on the axis of a new suspicion one of some starts: the best. */
function startOf(
  axes: readonly Axis[],
  score: (x: Float64Array) => number,
  bound: number,
  from: Explanation | undefined,
): Place {
  const stood = Float64Array.from(axes, (axis) =>
    Math.max(-bound, Math.min(bound, (from?.amounts.get(keyOf(axis)) ?? 0) / axis.sd)),
  );
  const fresh = axes.findIndex(({ suspicion }) => suspicion && !from?.suspicions.includes(suspicion));
  const rest = new Float64Array(axes.length);
  const starts = fresh < 0 ? [] : STARTS;
  return [stood, ...starts.flatMap((start) => [stood.with(fresh, start), rest.with(fresh, start)])]
    .map((x) => ({ x, value: score(x) }))
    .reduce((best, other) => (other.value > best.value ? other : best));
}

/** A reading with the line of known cane that it belongs to. */
interface Placed {
  readonly reading: FitReading;
  readonly blade: Blade;
  readonly column: Column;
  readonly zMm: number;
  readonly seatingMm: number;
}

/** Readings on known cane; those beyond it are left out. */
function place(
  { overallLengthMm }: JudgedPass,
  readings: readonly FitReading[],
  cane: CaneState,
  noise: Noise,
  labelling: Labelling,
): Placed[] {
  return readings.flatMap((reading) => {
    const blade = trueBlade(reading.blade, labelling);
    const zMm = overallLengthMm - reading.fromTipMm;
    const column = cane(blade, trueAcross(reading.blade, reading.across, labelling), zMm);
    if (!column || zMm < column.hull[0] - BEYOND_MM || zMm > column.hull[1] + BEYOND_MM) return [];
    const seatingMm = (noise.seatingMm * reading.noiseFactor) / Math.sqrt(reading.repeats);
    return [{ reading, blade, column, zMm, seatingMm }];
  });
}

/** By zone, then by blade; none empty. */
function zonesOf(placed: readonly Placed[]): Group[][] {
  return ZONES_END_MM.map((endMm, i) => {
    const inZone = placed.filter(
      ({ reading: { fromTipMm } }) => fromTipMm <= endMm && fromTipMm > (ZONES_END_MM[i - 1] ?? -Infinity),
    );
    return BLADES.map((name) => inZone.filter(({ blade }) => blade === name))
      .filter(({ length }) => length > 0)
      .map(groupOf);
  }).filter(({ length }) => length > 0);
}

/** Readings of one zone and blade with their changes, which each explanation tried writes anew. */
interface Group extends Changes {
  readonly placed: readonly Placed[];
}

function groupOf(placed: readonly Placed[]): Group {
  return { placed, changeMm: new Float64Array(placed.length), uMm: new Float64Array(placed.length) };
}

/** The kernel of the search: linear in the tables. @returns The group. */
function changesOf(group: Group, noise: Noise, offsets: Offsets): Group {
  const { placed, changeMm, uMm } = group;
  const { A: shiftA, B: shiftB } = offsets.shiftMm;
  const { A: zeroA, B: zeroB } = offsets.zeroMm;
  for (let i = 0; i < placed.length; i++) {
    const { reading, column, zMm, seatingMm } = placed[i]!;
    const isA = reading.blade === 'A';
    const last = column.mm.length - 1;
    const at = (zMm - (isA ? shiftA : shiftB) - column.fromMm) / TABLE_STEP_MM;
    const clamped = at < 0 ? 0 : at > last ? last : at;
    const k = clamped === last ? last - 1 : Math.floor(clamped);
    const part = clamped - k;
    const low = column.mm[k]!;
    const lowU = column.uMm[k]!;
    const rise = column.mm[k + 1]! - low;
    const added = (isA ? zeroA : zeroB) + offsets.driftMm * (reading.time ?? 0);
    const expectedMm = (low + part * rise) * (1 + offsets.swelling) + added;
    const expectedU = lowU + part * (column.uMm[k + 1]! - lowU);
    const placedMm = (noise.placementMm * rise) / TABLE_STEP_MM;
    changeMm[i] = reading.thicknessMm - expectedMm;
    uMm[i] = Math.sqrt(expectedU * expectedU + seatingMm * seatingMm + placedMm * placedMm);
  }
  return group;
}

function describe({ placed, changeMm, uMm }: Group): Change[] {
  return placed.map(({ reading }, i) => ({
    reading,
    expectedMm: reading.thicknessMm - changeMm[i]!,
    changeMm: changeMm[i]!,
    uMm: uMm[i]!,
  }));
}
