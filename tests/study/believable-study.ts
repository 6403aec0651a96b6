import { mean } from 'd3-array';
import { rectangleZone } from '../../src/blade/zones.ts';
import { believableMap, believableOverMm } from '../../src/figures/believable-map.ts';
import { mapGrid } from '../../src/figures/surface-map.ts';
import { zoneArea } from '../../src/figures/zone-mean.ts';
import type { NoiseModel } from '../../src/gauge/reading-noise.ts';
import { fitReed } from '../../src/surface/fit-reed.ts';
import { familyReed, FAMILY_GAUGES, type FamilyReed, type FamilySettings } from '../generator/family-reed.ts';

const ZONES_MM = { tip: [0.5, 3], ridge: [3, 6], heart: [6, 10], back: [10, 19] } as const;
type BelievableZone = keyof typeof ZONES_MM;

/** Places of a zone that are read twice more, along and across. */
const PLACES = { along: 25, across: 19 };
const GRID = { along: 61, across: 31 };

/** 1.96 standard deviations of the difference of two readings of one place, over the zones of a blade, mm. */
function repeatsDifferMm(reed: FamilyReed, [from, to]: readonly [number, number]): number {
  let squares = 0;
  for (let i = 0; i < PLACES.along; i++)
    for (let j = 0; j < PLACES.across; j++) {
      const y = from + ((to - from) * (i + 0.5)) / PLACES.along;
      const u = (2 * (j + 0.5)) / PLACES.across - 1;
      squares += (reed.readAgain('A', 0, y, u) - reed.readAgain('A', 0, y, u)) ** 2;
    }
  return 1.96 * Math.sqrt(squares / (PLACES.along * PLACES.across));
}

/** What is told of a reed's first pass, beside what repeats of it come to. */
interface Believed {
  /** Smallest change to believe over 1.96 standard deviations of repeated differences. */
  readonly ratios: Readonly<Record<BelievableZone, number>>;
  readonly noise: NoiseModel;
  /** Seating over what it was. */
  readonly seating: number;
}

export function believedOf(settings: FamilySettings): Believed {
  const reed = familyReed(settings);
  const { stepMm, seatingMm } = FAMILY_GAUGES[settings.gauge];
  const model = fitReed(reed.passes, { stepMm });
  const geometry = model.passes[0]!;
  const map = believableMap(model, 'A', 0, mapGrid(geometry.bladeLengthMm, GRID.along, GRID.across));
  const ratio = ([from, to]: readonly [number, number]) =>
    believableOverMm(map, zoneArea(rectangleZone('part', from, to), geometry))! /
    repeatsDifferMm(reed, [from, to]);
  const { tip, ridge, heart, back } = ZONES_MM;
  return {
    ratios: { tip: ratio(tip), ridge: ratio(ridge), heart: ratio(heart), back: ratio(back) },
    noise: model.noise,
    seating: model.noise.seatingMm / Math.hypot(seatingMm, stepMm / Math.sqrt(12)),
  };
}

/** Means over reeds. */
export function meanBelieved(all: readonly Believed[]): Pick<Believed, 'ratios' | 'seating'> & {
  readonly alongMm: number;
} {
  const over = (of: (one: Believed) => number) => mean(all, of)!;
  return {
    ratios: {
      tip: over(({ ratios }) => ratios.tip),
      ridge: over(({ ratios }) => ratios.ridge),
      heart: over(({ ratios }) => ratios.heart),
      back: over(({ ratios }) => ratios.back),
    },
    alongMm: over(({ noise }) => noise.alongMm),
    seating: over(({ seating }) => seating),
  };
}
