import { BLADES, type Blade } from '../../shared/blade.ts';
import type { JudgedPass } from '../../src/faults/explanation.ts';
import type { FitReading } from '../../src/surface/reed-model.ts';
import { seededRandom } from '../seeded-random.ts';
import { inventedCane, normalFrom, type CaneShape, type Random, type Style } from './invented-cane.ts';

/**
 * How the generated reeds are scraped and read; printed with every study. The length's error is that of each later pass
 * beside the first: only differences of lengths show in readings, so the first pass's own error would move the cork
 * end's zero for all passes alike. With an error of this size in both lengths, differences would scatter by 0.07 mm.
 */
export const SETTINGS = {
  seatingMm: 0.004,
  placementAlongMm: 0.05,
  /** In half-widths. */
  placementAcross: 0.05 / 3 / 3.2,
  stepMm: 0.01,
  lengthErrorMm: 0.05,
  swellingSd: 0.005,
  mostScrapes: 4,
  scrapeMm: [0.01, 0.05],
  evenShare: 1 / 3,
  evenMm: [0.005, 0.015],
  digShare: 0.05,
  digMm: [0.04, 0.1],
  clipShare: 0.2,
  clipMm: [0.1, 0.5],
  laterPasses: [1, 3],
  raggedShare: 0.25,
  partialShare: 0.25,
} as const;

type Extent = 'full' | 'ragged' | 'partial';

/** An invented reed without faults: its readings pass by pass, and the cane that was really there. */
export interface GeneratedReed {
  readonly style: Style;
  readonly passes: readonly JudgedPass[];
  readonly truth: readonly CaneShape[];
  /** How much of each pass was read. */
  readonly extent: readonly Extent[];
  /** True length less the written one, pass by pass. */
  readonly lengthErrorMm: readonly number[];
}

/** What a knife took off at a place, mm; distances from the tip of the pass. */
type Loss = (blade: Blade, fromTipMm: number, across: number) => number;
type Range = readonly [number, number];
interface Station {
  readonly blade: Blade;
  readonly fromTipMm: number;
  readonly across: number;
}

const ROWS_MM = [0.5, 1, 2, 3, 4, 5, 6, 8, 10, 12, 14, 16, 18, 20];
const ACROSS = [-0.8, -0.4, 0, 0.4, 0.8];
const ZONES_MM = [
  [0, 3.5],
  [3.5, 5.5],
  [5.5, 9],
  [9, 19],
] as const;
const OVERALL_MM = 70;

export function generatedReed(seed: number): GeneratedReed {
  const random = seededRandom(seed);
  const style: Style = random() < 0.5 ? 'long' : 'short';
  const passes: JudgedPass[] = [];
  const truth: CaneShape[] = [];
  const extent: Extent[] = [];
  const lengthErrorMm: number[] = [];
  let lengthMm = OVERALL_MM;
  let cane = inventedCane(style, OVERALL_MM, random);
  const count = 1 + whole(random, SETTINGS.laterPasses);
  for (let index = 0; index < count; index++) {
    const losses: Loss[] = [];
    if (index > 0) {
      if (random() < SETTINGS.clipShare) lengthMm -= Math.round(10 * between(random, SETTINGS.clipMm)) / 10;
      losses.push(...scrapes(random));
      cane = scraped(cane, lengthMm, losses);
    }
    const chosen = index === 0 ? 'full' : chooseExtent(random, losses);
    const stations = stationsOf(random, chosen, losses);
    const normal = normalFrom(random);
    const errorMm = index === 0 ? 0 : SETTINGS.lengthErrorMm * normal();
    passes.push({
      index,
      overallLengthMm: lengthMm,
      readings: readStations(stations, cane, lengthMm - errorMm, normal),
      controls: [],
    });
    lengthErrorMm.push(-errorMm);
    truth.push(cane);
    extent.push(chosen);
  }
  return { style, passes, truth, extent, lengthErrorMm };
}

function chooseExtent(random: Random, losses: readonly Loss[]): Extent {
  const x = random();
  if (x < SETTINGS.raggedShare) return 'ragged';
  return x < SETTINGS.raggedShare + SETTINGS.partialShare && losses.length > 0 ? 'partial' : 'full';
}

function scrapes(random: Random): Loss[] {
  const losses = Array.from({ length: whole(random, [0, SETTINGS.mostScrapes]) }, () => {
    const blades = pick<readonly Blade[]>(random, [['A'], ['B'], BLADES, BLADES]);
    return random() < SETTINGS.evenShare ? evenScrape(random, blades) : patch(random, blades);
  });
  return random() < SETTINGS.digShare ? [...losses, dig(random)] : losses;
}

function evenScrape(random: Random, blades: readonly Blade[]): Loss {
  const [from, to] = pick(random, ZONES_MM);
  const depth = between(random, SETTINGS.evenMm);
  return (blade, y) => (blades.includes(blade) && y >= from && y < to ? depth : 0);
}

function patch(random: Random, blades: readonly Blade[]): Loss {
  const [y0, u0] = [1 + 16 * random(), 1.6 * random() - 0.8];
  const [length, width] = [0.8 + 1.5 * random(), 0.2 + 0.4 * random()];
  const depth = between(random, SETTINGS.scrapeMm);
  return (blade, y, u) => (blades.includes(blade) ? depth * bump((y - y0) / length, (u - u0) / width) : 0);
}

function dig(random: Random): Loss {
  const own = pick(random, BLADES);
  const [y0, u0] = [pick(random, ROWS_MM.slice(3)), pick(random, ACROSS)];
  const depth = between(random, SETTINGS.digMm);
  return (blade, y, u) => (blade === own ? depth * bump((y - y0) / 0.7, (u - u0) / 0.2) : 0);
}

const bump = (a: number, b: number) => Math.exp(-a * a - b * b);

function scraped(cane: CaneShape, lengthMm: number, losses: readonly Loss[]): CaneShape {
  return (blade, zMm, across) => {
    const before = cane(blade, zMm, across);
    const loss = losses.reduce((sum, lost) => sum + lost(blade, lengthMm - zMm, across), 0);
    return before - Math.min(loss, 0.4 * before);
  };
}

function stationsOf(random: Random, extent: Extent, losses: readonly Loss[]): Station[] {
  const all = BLADES.flatMap((blade) =>
    ROWS_MM.flatMap((fromTipMm) => ACROSS.map((across) => ({ blade, fromTipMm, across }))),
  );
  if (extent === 'full') return all;
  if (extent === 'ragged') {
    const rows = new Set(ROWS_MM.filter(() => random() < 0.7));
    return all.filter(({ fromTipMm }) => (rows.has(fromTipMm) || fromTipMm === 1) && random() < 0.93);
  }
  const touched = ROWS_MM.map((y) =>
    BLADES.some((blade) => ACROSS.some((u) => losses.some((loss) => loss(blade, y, u) > 0.004))),
  );
  const near = ROWS_MM.filter((_, i) => touched[i - 1] || touched[i] || touched[i + 1]);
  return all.filter(({ fromTipMm }) => near.includes(fromTipMm) || fromTipMm === 6);
}

function readStations(
  stations: readonly Station[],
  cane: CaneShape,
  lengthMm: number,
  normal: () => number,
): FitReading[] {
  const swelling = 1 + SETTINGS.swellingSd * normal();
  return stations.map((station) => {
    const z = lengthMm - station.fromTipMm + SETTINGS.placementAlongMm * normal();
    const at = station.across + SETTINGS.placementAcross * normal();
    const shown = swelling * cane(station.blade, z, at) + SETTINGS.seatingMm * normal();
    return { ...station, thicknessMm: rounded(shown), repeats: 1, noiseFactor: 1 };
  });
}

/** As a gauge of the settings' step shows it, never less than one step. */
export function rounded(thicknessMm: number): number {
  return Math.max(Math.round(thicknessMm / SETTINGS.stepMm), 1) * SETTINGS.stepMm;
}

function between(random: Random, [from, to]: Range): number {
  return from + (to - from) * random();
}

function whole(random: Random, [from, to]: Range): number {
  return from + Math.floor((to - from + 1) * random());
}

function pick<T>(random: Random, from: readonly T[]): T {
  return from[Math.floor(from.length * random())]!;
}
