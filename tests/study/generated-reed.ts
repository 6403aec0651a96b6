import { BLADES, type Blade } from '../../shared/blade.ts';
import type { FitPass } from '../../src/surface/reed-model.ts';
import { seededRandom } from '../seeded-random.ts';
import { drawsFrom, generatedBlades, type Cane, type Draws } from './generated-cane.ts';

/** A reed made up by rule, read without a fault, and what was really there. */
export interface GeneratedReed {
  readonly style: 'long' | 'short';
  readonly gauge: keyof typeof GAUGES;
  readonly passes: readonly FitPass[];
  /** Cane after a pass at a distance from that pass's tip, as registered; wetness of the first pass. */
  readonly thicknessMm: (blade: Blade, pass: number, fromTipMm: number, across: number) => number;
}

/** What a gauge and the hand at it add to a reading: one standard deviation each, and the step. */
export const GAUGES = {
  dial: { seatingMm: 0.004, placementMm: 0.05, stepMm: 0.01 },
  fine: { seatingMm: 0.0015, placementMm: 0.02, stepMm: 0.001 },
} as const;
/** What all readings of a later pass share, one standard deviation. */
export const PASS_ERRORS = { lengthMm: 0.05, swelling: 0.005 } as const;

const ROWS_MM = [0.5, 1, 2, 3, 4, 5, 6, 8, 10, 12, 14, 16, 18, 20];
const ACROSS = [-0.8, -0.4, 0, 0.4, 0.8];
const BLADE_LENGTH_MM = 23;
const FIRST_LENGTH_MM = 70;
const DIG_SHARE = 0.05;
const FINE_SHARE = 1 / 4;
const EVEN_SHARE = 1 / 3;
const CLIP_SHARE = 0.2;
const ZONES_MM = [
  [0, 4],
  [5, 9],
  [9, 18],
] as const;

/** A scrape as the depth that it takes, by distance from the first tip and place across. */
interface Scrape {
  readonly blade: Blade;
  readonly depthMm: Cane;
  /** Where a maker reads again after it. */
  readonly fromMm: number;
  readonly toMm: number;
}

/** Everything follows from the seed. Half of the reeds have a long scrape, half a short one; one gauge in four is fine. */
export function generatedReed(seed: number): GeneratedReed {
  const draws = drawsFrom(seededRandom(seed));
  const style = draws.chance(0.5) ? 'long' : 'short';
  const gauge = draws.chance(FINE_SHARE) ? 'fine' : 'dial';
  const fresh = generatedBlades(style, draws);
  const count = 2 + Math.floor(draws.random() * 3);
  const cane: Record<Blade, Cane>[] = [fresh];
  const passes: FitPass[] = [readPass(gauge, 0, FIRST_LENGTH_MM, fresh, everywhere, draws)];
  for (let index = 1; index < count; index++) {
    const before = cane[index - 1]!;
    const scrapes = scrapesOf(before, draws);
    const after = Object.fromEntries(
      BLADES.map((blade) => [
        blade,
        scraped(
          before[blade],
          scrapes.filter((scrape) => scrape.blade === blade),
        ),
      ]),
    ) as Record<Blade, Cane>;
    cane.push(after);
    const clipMm = draws.chance(CLIP_SHARE) ? draws.between(0.1, 0.3) : 0;
    const lengthMm = passes[index - 1]!.overallLengthMm - Math.round(20 * clipMm) / 20;
    passes.push(readPass(gauge, index, lengthMm, after, stationsRead(scrapes, lengthMm, draws), draws));
  }
  return {
    style,
    gauge,
    passes,
    thicknessMm: (blade, pass, fromTipMm, across) =>
      cane[pass]![blade](FIRST_LENGTH_MM - passes[pass]!.overallLengthMm + fromTipMm, across),
  };
}

type IsRead = (blade: Blade, fromTipMm: number) => boolean;
const everywhere: IsRead = () => true;

/** A full pass, one with gaps, or one that looks only where the knife was. */
function stationsRead(scrapes: readonly Scrape[], lengthMm: number, draws: Draws): IsRead {
  const kind = draws.random();
  if (kind < 0.4 || scrapes.length === 0) return everywhere;
  if (kind < 0.6) return () => !draws.chance(0.25);
  return (blade, fromTipMm) => {
    const place = FIRST_LENGTH_MM - lengthMm + fromTipMm;
    return scrapes.some((s) => s.blade === blade && place > s.fromMm && place < s.toMm);
  };
}

function scraped(before: Cane, scrapes: readonly Scrape[]): Cane {
  return (y, u) => scrapes.reduce((t, { depthMm }) => t - depthMm(y, u), before(y, u));
}

function scrapesOf(cane: Readonly<Record<Blade, Cane>>, draws: Draws): Scrape[] {
  const patches = Array.from({ length: Math.floor(draws.random() * 5) }, () => patch(cane, draws));
  const even = draws.chance(EVEN_SHARE) ? evenScrape(draws) : [];
  const dig = draws.chance(DIG_SHARE) ? [digOf(draws)] : [];
  return [...patches, ...even, ...dig];
}

function patch(cane: Readonly<Record<Blade, Cane>>, draws: Draws): Scrape {
  const blade = draws.chance(0.5) ? 'A' : 'B';
  const [y, u] = [draws.between(1, 18), draws.between(-0.7, 0.7)];
  const [along, across] = [draws.between(0.7, 2), draws.between(0.15, 0.5)];
  // Nobody takes a quarter of what is there in one pass.
  const deep = Math.min(draws.between(0.01, 0.05), 0.25 * cane[blade](y, u));
  return gaussian(blade, { y, u, along, across, deep });
}

function digOf(draws: Draws): Scrape {
  const blade = draws.chance(0.5) ? 'A' : 'B';
  const place = { y: draws.between(6, 16), u: draws.between(-0.6, 0.6) };
  return gaussian(blade, { ...place, along: 0.4, across: 0.12, deep: 0.03 });
}

function gaussian(
  blade: Blade,
  { y, u, along, across, deep }: Record<'y' | 'u' | 'along' | 'across' | 'deep', number>,
): Scrape {
  const depthMm: Cane = (atY, atU) =>
    deep * Math.exp(-0.5 * (((atY - y) / along) ** 2 + ((atU - u) / across) ** 2));
  return { blade, depthMm, fromMm: y - 2.5 * along, toMm: y + 2.5 * along };
}

function evenScrape(draws: Draws): Scrape[] {
  const [from, to] = ZONES_MM[Math.floor(draws.random() * ZONES_MM.length)]!;
  const deep = draws.between(0.005, 0.015);
  const edge = (x: number) => (1 + x / Math.sqrt(1 + x * x)) / 2;
  const depthMm: Cane = (y) => deep * edge((y - from) / 0.3) * edge((to - y) / 0.3);
  return BLADES.map((blade) => ({ blade, depthMm, fromMm: from - 1, toMm: to + 1 }));
}

function readPass(
  gauge: keyof typeof GAUGES,
  index: number,
  overallLengthMm: number,
  cane: Readonly<Record<Blade, Cane>>,
  isRead: IsRead,
  { normal }: Draws,
): FitPass {
  const { seatingMm, placementMm, stepMm } = GAUGES[gauge];
  // The first pass is the one that length and wetness are counted from.
  const [short, swollen] =
    index === 0 ? [0, 0] : [normal(PASS_ERRORS.lengthMm), normal(PASS_ERRORS.swelling)];
  const gone = FIRST_LENGTH_MM - overallLengthMm;
  const halfWidthMm = (fromTipMm: number) => (7 - 0.09 * (gone + fromTipMm)) / 2;
  const readings = BLADES.flatMap((blade) =>
    ROWS_MM.flatMap((fromTipMm) =>
      ACROSS.filter(() => isRead(blade, fromTipMm)).map((across) => {
        const y = gone + fromTipMm + short + normal(placementMm);
        const u = across + normal(placementMm / 3) / halfWidthMm(fromTipMm);
        const met = cane[blade](y, u) * (1 + swollen) + normal(seatingMm);
        const thicknessMm = Math.round(met / stepMm) * stepMm;
        return { blade, fromTipMm, across, thicknessMm, repeats: 1, noiseFactor: 1 };
      }),
    ),
  );
  return { index, overallLengthMm, bladeLengthMm: BLADE_LENGTH_MM, halfWidthMm, readings };
}
