import type { Checked, CheckedReed } from './against-truth.ts';

/** Figures of many reeds beside the truth. Shares run from 0 to 1, lengths are mm. */
export interface Summary {
  readonly points: number;
  readonly covered: number;
  readonly coveredByPart: Readonly<Record<'tip' | 'ridge' | 'heart' | 'back', number>>;
  readonly rmsMm: number;
  readonly halfWidthMm: number;
  readonly rectanglesCovered: number;
  readonly removedRmsMm: number;
  readonly scrapedBias: number;
  readonly scrapedCovered: number;
  readonly untouchedCalled: number;
}

/** What counts as scraped, and as untouched, mm. */
const SCRAPED_MM = 0.005;
const UNTOUCHED_MM = 0.0002;

const PARTS = { tip: [0, 3.6], ridge: [3.6, 5.5], heart: [5.5, 9.5], back: [9.5, 30] } as const;

export const share = (hits: readonly boolean[]) => hits.filter(Boolean).length / hits.length;
export const mean = (values: readonly number[]) => values.reduce((sum, v) => sum + v, 0) / values.length;
export const rms = (values: readonly number[]) => Math.sqrt(mean(values.map((v) => v * v)));
export const median = (values: readonly number[]) =>
  [...values].sort((a, b) => a - b)[Math.floor(values.length / 2)]!;

export const isCovered = ({ valueMm, uMm, trueMm }: Checked) => Math.abs(valueMm - trueMm) < 1.96 * uMm;
export const errorMm = ({ valueMm, trueMm }: Checked) => valueMm - trueMm;

export function summarise(reeds: readonly CheckedReed[]): Summary {
  const points = reeds.flatMap((reed) => reed.points);
  const removed = reeds.flatMap((reed) => reed.removed);
  const scraped = removed.filter(({ trueMm }) => trueMm > SCRAPED_MM);
  const untouched = removed.filter(({ trueMm }) => trueMm < UNTOUCHED_MM);
  const within = ([from, to]: readonly [number, number]) =>
    share(points.filter(({ fromTipMm }) => fromTipMm >= from && fromTipMm < to).map(isCovered));
  return {
    points: points.length,
    covered: share(points.map(isCovered)),
    coveredByPart: {
      tip: within(PARTS.tip),
      ridge: within(PARTS.ridge),
      heart: within(PARTS.heart),
      back: within(PARTS.back),
    },
    rmsMm: rms(points.map(errorMm)),
    halfWidthMm: median(points.map(({ uMm }) => 1.96 * uMm)),
    rectanglesCovered: share(reeds.flatMap((reed) => reed.rectangles.map(isCovered))),
    removedRmsMm: rms(removed.map(errorMm)),
    scrapedBias: mean(scraped.map(errorMm)) / mean(scraped.map(({ trueMm }) => trueMm)),
    scrapedCovered: share(scraped.map(isCovered)),
    untouchedCalled: share(untouched.map(({ valueMm, uMm }) => Math.abs(valueMm) > 1.96 * uMm)),
  };
}
