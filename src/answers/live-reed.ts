import { greatest } from 'd3-array';
import { BLADES, type Blade, type Place } from '../../shared/blade.ts';
import type { Pass } from '../../shared/pass.ts';
import type { Reading } from '../../shared/reading.ts';
import { shownMm } from '../gauge/correct-readings.ts';
import { estimate, pointFunctional, valueMm } from '../figures/functional.ts';
import { mapGrid, thicknessMap, type MapGrid } from '../figures/surface-map.ts';
import { meanOver, zoneArea } from '../figures/zone-mean.ts';
import { fitReadings } from '../reed/assemble.ts';
import { REMOVAL_SD_MM, USUAL_REMOVAL_MM } from './expectation.ts';
import { addReading, openedFor } from '../surface/add-reading.ts';
import { readingVariance } from '../gauge/reading-noise.ts';
import type { ReedPosterior } from '../surface/reed-posterior.ts';
import type { Estimate, Functional } from '../surface/reed-model.ts';
import { zonesAt, type FittedReed } from './fitted-reed.ts';
import { standingReadings } from './standing-readings.ts';

/** Fine enough for a small picture that changes with every key. */
const ALONG = 41;
const ACROSS = 15;

/** Weights of all that is shown, by blade; no reading changes them. */
interface LiveWeights {
  readonly zones: readonly {
    readonly title: string;
    readonly means: Readonly<Partial<Record<Blade, Functional>>>;
  }[];
  readonly maps: Readonly<Partial<Record<Blade, SparseRows>>>;
}

/** Row k has its weights at `from[k]` up to `from[k + 1]`, of the coefficients `columns`. */
interface SparseRows {
  readonly from: readonly number[];
  readonly columns: readonly number[];
  readonly weights: readonly number[];
}

/** The part of a blade in which readings lie: distances from the tip, mm, and the farthest position across. */
export interface ReadPart {
  readonly fromMm: number;
  readonly toMm: number;
  readonly acrossTo: number;
}

/** A reed while readings of one of its passes are typed: each moves it by one step, smoothing held. */
export interface LiveReed {
  readonly benched: FittedReed;
  /** Place of the pass that is typed. */
  readonly pass: number;
  readonly model: ReedPosterior;
  /** Blades of which the pass has a reading. */
  readonly begun: readonly Blade[];
  /** Where each blade was read. */
  readonly read: Readonly<Partial<Record<Blade, ReadPart>>>;
  readonly grid: MapGrid;
  readonly weights: LiveWeights;
}

/** What is shown of a live reed. */
export interface LiveFigures {
  readonly zones: readonly {
    readonly title: string;
    readonly blades: Readonly<Partial<Record<Blade, Estimate>>>;
  }[];
  /** Thickness over the grid, mm, row by row from the tip. */
  readonly maps: Readonly<Partial<Record<Blade, Float64Array>>>;
}

/** @param passIndex Index of the pass that is typed. @returns undefined for a reed or a pass that is not fitted yet. */
export function liveReed(benched: FittedReed, passIndex: number): LiveReed | undefined {
  const { passes } = benched;
  const pass = passes.findIndex(({ index }) => index === passIndex);
  if (!benched.model || pass < 0) return undefined;
  const model = openedFor(benched.model, pass);
  const begun = BLADES.filter((blade) =>
    fitReadings(passes[pass]!, benched.assembled.gauges[pass]!).some((reading) => reading.blade === blade),
  );
  const standing = standingReadings(benched, pass);
  const read: Partial<Record<Blade, ReadPart>> = {};
  for (const one of standing) read[one.blade] = grown(read[one.blade], one);
  const grid = mapGrid(model.passes[pass]!.bladeLengthMm, ALONG, ACROSS);
  return { benched, pass, model, begun, read, grid, weights: weightsOf(benched, model, pass, grid) };
}

/**
 * The reed with one more reading of the pass.
 *
 * @param reading Of a place that the pass has not read.
 * @returns undefined where only a new fit can take it.
 */
export function withOneMore(live: LiveReed, pass: Pass, reading: Reading): LiveReed | undefined {
  const [one] = fitReadings({ ...pass, readings: [reading] }, live.benched.assembled.gauges[live.pass]!);
  const model = one && addReading(live.model, live.pass, one);
  if (!one || !model) return undefined;
  const read = { ...live.read, [one.blade]: grown(live.read[one.blade], one) };
  const begun = [...new Set([...live.begun, one.blade])];
  return { ...live, model, begun, read };
}

/**
 * What a reading of the pass at a place that it has not read yet may be expected to show, with the scatter of one reading
 * there, mm. Before the first reading of a blade in the pass: the surface as it was, less what a knife usually takes.
 */
export function expectedReading(live: LiveReed, reading: Reading): Estimate | undefined {
  const { model, pass } = live;
  const { blade, fromTipMm, across } = reading;
  if (!model.layouts[blade]) return undefined;
  const place = { blade, pass, fromTipMm, across };
  const { valueMm: surfaceMm, uMm } = estimate(model, pointFunctional(model, place));
  const slope = (derivative: 'along' | 'across') =>
    valueMm(model, pointFunctional(model, { ...place, derivative }));
  const halfWidthMm = model.passes[pass]!.halfWidthMm(fromTipMm);
  const scatter = Math.sqrt(readingVariance(model.noise, -slope('along'), slope('across') / halfWidthMm));
  const { passes, assembled } = live.benched;
  const shown = (thicknessMm: number) => shownMm(thicknessMm, passes[pass]!, assembled.gauges[pass]!);
  return live.begun.includes(blade)
    ? { valueMm: shown(surfaceMm), uMm: Math.hypot(uMm, scatter) }
    : { valueMm: shown(surfaceMm - USUAL_REMOVAL_MM), uMm: Math.hypot(uMm, scatter, REMOVAL_SD_MM) };
}

export function liveFigures({ model, pass, weights }: LiveReed): LiveFigures {
  const zones = weights.zones.map(({ title, means }) => ({
    title,
    blades: Object.fromEntries(Object.entries(means).map(([blade, mean]) => [blade, estimate(model, mean)])),
  }));
  const maps = Object.fromEntries(
    BLADES.flatMap((blade) => {
      const rows = weights.maps[blade];
      return rows ? [[blade, products(rows, model.meanAfter(blade, pass))]] : [];
    }),
  );
  return { zones, maps };
}

/** A place with its standard error. */
export type LeastSure = Place & { readonly uMm: number };

/** What the readings of a live reed leave open. */
export interface LeftOpen {
  /** Standard error over the grid, mm, row by row from the tip. */
  readonly maps: Readonly<Partial<Record<Blade, Float64Array>>>;
  /** The place, between those that were read, that is most open. */
  readonly leastSure?: LeastSure;
}

/** The standard errors of a live reed; they take longer than its figures. */
export function leftOpen({ model, pass, grid, read }: LiveReed): LeftOpen {
  const maps: Partial<Record<Blade, Float64Array>> = {};
  for (const blade of BLADES.filter((name) => model.blades[name]))
    maps[blade] = thicknessMap(model, blade, pass, grid).uMm;
  const places = BLADES.flatMap((blade) =>
    Array.from(maps[blade] ?? [], (uMm, k) => ({
      blade,
      fromTipMm: grid.ysMm[Math.floor(k / grid.us.length)]!,
      across: grid.us[k % grid.us.length]!,
      uMm,
    })).filter((place) => isInside(place, read[blade])),
  );
  const most = greatest(places, (a, b) => a.uMm - b.uMm);
  return { maps, ...(most && { leastSure: most }) };
}

function grown(
  part: ReadPart | undefined,
  { fromTipMm, across }: Pick<Place, 'fromTipMm' | 'across'>,
): ReadPart {
  return {
    fromMm: Math.min(part?.fromMm ?? Infinity, fromTipMm),
    toMm: Math.max(part?.toMm ?? 0, fromTipMm),
    acrossTo: Math.max(part?.acrossTo ?? 0, Math.abs(across)),
  };
}

function isInside(
  { fromTipMm, across }: Pick<Place, 'fromTipMm' | 'across'>,
  part: ReadPart | undefined,
): boolean {
  return (
    part !== undefined &&
    fromTipMm >= part.fromMm &&
    fromTipMm <= part.toMm &&
    Math.abs(across) <= part.acrossTo
  );
}

function weightsOf(benched: FittedReed, model: ReedPosterior, pass: number, grid: MapGrid): LiveWeights {
  const read = BLADES.filter((blade) => model.blades[blade]);
  const zones = zonesAt(benched, pass).map((zone) => {
    const area = zoneArea(zone, model.passes[pass]!);
    const means = read.map((blade) => [blade, meanOver(model, blade, pass, area)] as const);
    return { title: zone.title, means: Object.fromEntries(means.filter(([, mean]) => mean)) };
  });
  const maps = Object.fromEntries(read.map((blade) => [blade, mapRows(model, blade, pass, grid)]));
  return { zones, maps };
}

function mapRows(model: ReedPosterior, blade: Blade, pass: number, { ysMm, us }: MapGrid): SparseRows {
  const row = new Float64Array(model.blades[blade]!.mean.length);
  const from = [0];
  const columns: number[] = [];
  const weights: number[] = [];
  for (const fromTipMm of ysMm) {
    for (const across of us) {
      row.fill(0);
      model.addWeights(row, { blade, pass, fromTipMm, across }, 1);
      row.forEach((weight, column) => {
        if (weight === 0) return;
        columns.push(column);
        weights.push(weight);
      });
      from.push(columns.length);
    }
  }
  return { from, columns, weights };
}

function products({ from, columns, weights }: SparseRows, mean: Float64Array): Float64Array {
  return Float64Array.from({ length: from.length - 1 }, (_, k) => {
    let sum = 0;
    for (let i = from[k]!; i < from[k + 1]!; i++) sum += weights[i]! * mean[columns[i]!]!;
    return sum;
  });
}
