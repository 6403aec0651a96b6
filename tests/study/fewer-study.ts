import { BLADES, type Blade } from '../../shared/blade.ts';
import { rectangleZone } from '../../src/blade/zones.ts';
import { belongingOf } from '../../src/family/belongs.ts';
import { choosePlaces } from '../../src/family/choose-places.ts';
import { barelyRead, knowingOf } from '../../src/round/knowing-of.ts';
import { oddInFamily } from '../../src/faults/first-of-family.ts';
import { oddFirstReadings } from '../../src/faults/first-pass.ts';
import { taughtBy, type Taught } from '../../src/family/of-library.ts';
import { priorOf } from '../../src/family/predictive.ts';
import type { ReadReed } from '../../src/family/read-reed.ts';
import { combine, estimate, pointFunctional } from '../../src/figures/functional.ts';
import { meanOver, zoneArea } from '../../src/figures/zone-mean.ts';
import { usualZeroUMm } from '../../src/gauge/correct-readings.ts';
import { USUAL_PLACEMENT_MM, usualSeatingMm } from '../../src/gauge/reading-noise.ts';
import { resolutionU } from '../../src/gauge/resolution.ts';
import { fitReed } from '../../src/surface/fit-reed.ts';
import type { Estimate, FitPass, FitReading, ReedModel } from '../../src/surface/reed-model.ts';
import { familyReed, FAMILY_GAUGES, type FamilyReed } from '../generator/family-reed.ts';
import { inventedMaker, type Maker, type MakerKind } from '../generator/makers.ts';
import { seededRandom } from '../seeded-random.ts';
import { regionOf } from './family-study.ts';

/** Figures beside their truth, by name. */
export type Beside = Map<string, { count: number; within: number; squaresMm2: number; halvesMm: number }>;

/** What one setting says, over some makers. */
export interface FewerResult {
  readonly learned: Beside;
  readonly half: Beside;
  readonly strayed: number[];
  /** Reeds of the maker, and those that were called outside. */
  readonly own: { count: number; outside: number };
  readonly strangers: { count: number; outside: number };
  /** Slips of first passes planted and told, and clean passes of which a reading was asked. */
  readonly slips: { count: number; told: number };
  readonly clean: { count: number; asked: number };
  /** Makers who changed, and who were noticed within three reeds. */
  readonly changes: { count: number; noticed: number };
  /** Makers from whose reeds nothing was taught. */
  untaught: number;
}

const ZONES_MM = { tip: [0.3, 3.6], blend: [3.7, 5.4], heart: [5.5, 8.5], back: [10.5, 17] } as const;
export const FEW_PLACES = 16;
/** No zone is ever known to so small a part of what half a grid leaves of it. */
const NEVER_ENOUGH = 1e-3;

const noiseOf = ({ gauge }: Pick<Maker, 'gauge'>) => {
  const { stepMm } = FAMILY_GAUGES[gauge];
  return {
    seatingMm: Math.hypot(usualSeatingMm(stepMm), resolutionU(stepMm)),
    zeroMm: usualZeroUMm(stepMm),
  };
};

export const asRead = (maker: Pick<Maker, 'gauge'>, readings: readonly FitReading[]): ReadReed => ({
  readings,
  ...noiseOf(maker),
});

export function studyFewer(
  kind: MakerKind,
  reedCount: number,
  firstSeed: number,
  makers: number,
  reedsEach: number,
): FewerResult {
  const result: FewerResult = {
    ...{ learned: new Map(), half: new Map(), strayed: [], untaught: 0 },
    ...{ own: { count: 0, outside: 0 }, strangers: { count: 0, outside: 0 } },
    ...{ slips: { count: 0, told: 0 }, clean: { count: 0, asked: 0 }, changes: { count: 0, noticed: 0 } },
  };
  for (let seed = firstSeed; seed < firstSeed + makers; seed++) {
    const maker = inventedMaker(kind, seed, reedCount >> 1);
    const library = Array.from({ length: reedCount }, (_, i) =>
      asRead(maker, maker.reed(i).passes[0]!.readings),
    );
    const lesson = lessonOf(maker, library);
    if (lesson) result.strayed.push(lesson.taught.strayed);
    else result.untaught++;
    for (let k = 0; k < reedsEach; k++) studyReed(result, maker, maker.reed(reedCount + k), lesson);
    if (!lesson) continue;
    for (const stranger of strangersOf(maker, seed)) studyStranger(result, maker, stranger, lesson);
    if (kind === 'changing') studyChange(result, library);
  }
  return result;
}

/** What a library teaches, and the places of a full grid that are read by it. */
interface Lesson {
  readonly taught: Taught;
  readonly places: ReadonlySet<number>;
}

export function lessonOf(maker: Maker, library: readonly ReadReed[]): Lesson | undefined {
  const taught = taughtBy(library);
  return taught && { taught, places: fewPlaces(maker, taught) };
}

function studyReed(result: FewerResult, maker: Maker, reed: FamilyReed, lesson: Lesson | undefined): void {
  const { stepMm } = FAMILY_GAUGES[maker.gauge];
  const [pass] = reed.passes;
  const half = { ...pass!, readings: pass!.readings.filter(isChequered) };
  compare(result.half, reed, fitReed([half], { stepMm }));
  if (!lesson) {
    compare(result.learned, reed, fitReed([half], { stepMm }));
    return;
  }
  studyShort(result, maker, reed, lesson);
  studySlips(result, maker, reed, lesson.taught);
}

/**
 * A reed by few readings and what was taught; where it is outside, or the last reeds are of another kind than those before,
 * by all readings and the usual prior, as more is asked then.
 *
 * @returns Whether it was read in full.
 */
function studyShort(
  result: Pick<FewerResult, 'learned' | 'own'>,
  maker: Maker,
  reed: FamilyReed,
  { taught, places }: Lesson,
): boolean {
  const [pass] = reed.passes;
  const few = pass!.readings.filter((_, at) => places.has(at));
  const { isOutside } = belongingOf(asRead(maker, few), taught.predictive);
  const isInFull = isOutside || taught.isChanging;
  result.own.count++;
  result.own.outside += Number(isOutside);
  const options = {
    stepMm: FAMILY_GAUGES[maker.gauge].stepMm,
    ...(!isInFull && { learned: priorOf(taught.predictive) }),
  };
  const readings = isInFull ? pass!.readings : few;
  compare(result.learned, reed, fitReed([{ ...pass!, readings }], options));
  return isInFull;
}

const isChequered = ({ fromTipMm, across }: FitReading) =>
  (Math.round(across * 2.5) + (fromTipMm < 1 ? 0 : fromTipMm <= 6 ? fromTipMm : 3 + fromTipMm / 2)) % 2 === 0;

/** Zones' halves on both blades, of a pass that was read in full. */
const halvesOf = (model: ReedModel, pass: FitPass) =>
  Object.entries(ZONES_MM).flatMap(([name, [from, to]]) =>
    (['left', 'right'] as const).flatMap((side) =>
      BLADES.map((blade) => meanOver(model, blade, 0, zoneArea(rectangleZone(name, from, to), pass, side))!),
    ),
  );

/** The places that tell most of the zones' halves, each in parts of what half a grid leaves of it; by their numbers. */
function fewPlaces(maker: Maker, { predictive }: Taught): ReadonlySet<number> {
  const pass = maker.reed(0).passes[0]!;
  const { stepMm } = FAMILY_GAUGES[maker.gauge];
  const half = fitReed([{ ...pass, readings: pass.readings.filter(isChequered) }], { stepMm });
  const parts = Float64Array.from(
    halvesOf(half, pass),
    (figure) => (NEVER_ENOUGH * estimate(half, figure).uMm) ** 2,
  );
  const model = fitReed([barelyRead(pass)], { stepMm, learned: priorOf(predictive) });
  const knowing = knowingOf(model, pass.readings, halvesOf(model, pass));
  return new Set(choosePlaces(knowing, parts).slice(0, 2 * FEW_PLACES));
}

function add(beside: Beside, name: string, { valueMm, uMm }: Estimate, trueMm: number): void {
  const one = beside.get(name) ?? { count: 0, within: 0, squaresMm2: 0, halvesMm: 0 };
  one.count++;
  one.within += Number(Math.abs(valueMm - trueMm) <= 1.96 * uMm);
  one.squaresMm2 += (valueMm - trueMm) ** 2;
  one.halvesMm += 1.96 * uMm;
  beside.set(name, one);
}

const POINTS = 40;

/** Points of each region, means of zones, blade against blade and left against right, beside what was there. */
function compare(beside: Beside, reed: FamilyReed, model: ReedModel): void {
  const random = seededRandom(reed.seed + 1_000_000);
  for (let k = 0; k < POINTS; k++) {
    const blade: Blade = random() < 0.5 ? 'A' : 'B';
    const [fromTipMm, across] = [0.5 + 19.5 * random(), -0.8 + 1.6 * random()];
    const figure = estimate(model, pointFunctional(model, { blade, pass: 0, fromTipMm, across }));
    add(beside, regionOf(fromTipMm), figure, reed.thicknessMm(blade, 0, fromTipMm, across));
  }
  for (const [name, [from, to]] of Object.entries(ZONES_MM)) {
    const mean = (blade: Blade, side: 'left' | 'right' | 'both') => {
      const area = zoneArea(rectangleZone(name, from, to), model.passes[0]!, side);
      const trueMm = area.nodes.reduce(
        (sum, { x, y, area: share }) => sum + (share / area.areaMm2) * reed.thicknessMm(blade, 0, x, y),
        0,
      );
      return { of: meanOver(model, blade, 0, area)!, trueMm };
    };
    type Mean = ReturnType<typeof mean>;
    const addDifference = (name: string, one: Mean, other: Mean) => {
      const of = combine([
        [1, one.of],
        [-1, other.of],
      ]);
      add(beside, name, estimate(model, of), one.trueMm - other.trueMm);
    };
    const [a, b] = [mean('A', 'both'), mean('B', 'both')];
    for (const one of [a, b]) add(beside, `zone ${name}`, estimate(model, one.of), one.trueMm);
    addDifference('blade', a, b);
    for (const blade of BLADES) {
      const [left, right] = [mean(blade, 'left'), mean(blade, 'right')];
      addDifference('sides', right, left);
    }
  }
}

/** How a maker goes on who changed style: figures of the reeds after the change, and whether it was noticed. */
export interface AfterChange {
  readonly figures: Beside;
  /** The reeds after the change that were read in full, and all. */
  inFull: number;
  count: number;
  isNoticed: boolean;
}

const NOTICED_WITHIN = 3;

/** @param before Reeds of the first style. @param after Reeds of the second, each read short with all before it as the library. */
export function studyAfterChange(seed: number, before: number, after: number): AfterChange {
  const maker = inventedMaker('changing', seed, before);
  const reeds = Array.from({ length: before + Math.max(after, NOTICED_WITHIN) }, (_, k) => maker.reed(k));
  const library = reeds.map((reed) => asRead(maker, reed.passes[0]!.readings));
  const result: AfterChange = { figures: new Map(), inFull: 0, count: 0, isNoticed: false };
  for (let k = before; k < before + after; k++) {
    const lesson = lessonOf(maker, library.slice(0, k));
    const own = { learned: result.figures, own: { count: 0, outside: 0 } };
    if (lesson) result.inFull += Number(studyShort(own, maker, reeds[k]!, lesson));
    result.count += own.own.count;
  }
  result.isNoticed = taughtBy(library.slice(0, before + NOTICED_WITHIN))?.isChanging === true;
  return result;
}

/** A reed of another maker, and one of another style. */
function strangersOf(maker: Maker, seed: number): FamilyReed[] {
  const { gauge, handMm } = maker;
  return [
    inventedMaker('steady', seed + 5000, 0, maker).reed(0),
    familyReed({ ...{ family: 'short', gauge, handMm, extent: 'full', count: 1 }, seed: seed + 7000 }),
  ];
}

function studyStranger(
  result: FewerResult,
  maker: Maker,
  reed: FamilyReed,
  { taught, places }: Lesson,
): void {
  const few = reed.passes[0]!.readings.filter((_, at) => places.has(at));
  result.strangers.count++;
  result.strangers.outside += Number(belongingOf(asRead(maker, few), taught.predictive).isOutside);
}

/** One reading of the first pass a tenth off, one with digits turned, one a third off: each by itself. */
function studySlips(result: FewerResult, maker: Maker, reed: FamilyReed, { predictive }: Taught): void {
  const { readings } = reed.passes[0]!;
  const { stepMm } = FAMILY_GAUGES[maker.gauge];
  const gauge = { seatingMm: noiseOf(maker).seatingMm, placementMm: USUAL_PLACEMENT_MM };
  const oddOf = (list: readonly FitReading[]) => {
    const pass = { ...reed.passes[0]!, readings: list, readTwice: [], accident: false };
    return oddInFamily(pass, gauge, stepMm, [predictive]) ?? oddFirstReadings(pass, gauge, stepMm);
  };
  result.clean.count++;
  result.clean.asked += Number(oddOf(readings).length > 0);
  const random = seededRandom(reed.seed + 2_000_000);
  for (const slip of [tenth, turned, third]) {
    const at = Math.floor(random() * readings.length);
    const meant = readings[at]!;
    const typed = slip(meant.thicknessMm, random);
    if (Math.abs(typed - meant.thicknessMm) < 0.03) continue;
    result.slips.count++;
    const read = { ...meant, thicknessMm: typed };
    result.slips.told += Number(oddOf(readings.with(at, read)).some(({ reading }) => reading === read));
  }
}

const tenth = (mm: number, random: () => number) => (random() < 0.5 && mm > 0.15 ? mm - 0.1 : mm + 0.1);
const third = (mm: number, random: () => number) => (random() < 0.5 ? (mm * 2) / 3 : (mm * 4) / 3);
function turned(mm: number): number {
  const [a, b] = [Math.floor(mm * 10), Math.round(mm * 100) % 10];
  return b === 0 ? mm + 0.1 : b / 10 + a / 100;
}

/** The library up to the change and three reeds more. */
function studyChange(result: FewerResult, library: readonly ReadReed[]): void {
  const changed = taughtBy(library.slice(0, (library.length >> 1) + 3));
  if (!changed) return;
  result.changes.count++;
  result.changes.noticed += Number(changed.isChanging);
}
