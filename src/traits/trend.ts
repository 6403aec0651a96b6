import { COVERAGE } from '../words/format.ts';

/** Where the trials of reeds of about one figure lie: their middle, with its 95 % interval, in steps of their scale. */
export interface TrendPlace {
  readonly at: number;
  readonly middle: number;
  readonly low: number;
  readonly high: number;
}

/** Fewer reeds have no trend. Our own number. */
const FEWEST = 24;
/** A place speaks for this share of the reeds, those with the nearest figures. Our own number. */
const NEAR = 1 / 3;
const PLACES = 24;

/**
 * The value under which a share of steps lies, each step spread evenly over half a step either way: the median of grouped
 * data for a half. Steps are counted and never averaged.
 *
 * @param steps At least one, rising.
 * @param share From 0 to 1.
 */
export function groupedQuantile(steps: readonly number[], share: number): number {
  const rank = share * steps.length;
  const within = (step: number) => {
    const below = steps.findIndex((one) => one === step);
    const equal = steps.findLastIndex((one) => one === step) + 1 - below;
    return step - 0.5 + (rank - below) / equal;
  };
  const under = steps[Math.max(0, Math.ceil(rank) - 1)]!;
  const over = steps[Math.min(steps.length - 1, Math.floor(rank))]!;
  return (within(under) + within(over)) / 2;
}

/**
 * How trials run along a figure: their middle over the nearest third of the reeds, moved along; with its interval by the
 * binomial distribution of the ranks about it. With steps
 * that many reeds share it holds more often than 95 times in 100, never less. Not drawn beyond the middles of the outermost thirds; empty for few reeds.
 *
 * Source: interval for a quantile by ranks, normal approximation; Conover 1999, section 3.2, from memory.
 *
 * @param points In the order of x; y are whole steps.
 */
export function trendOf(points: readonly { readonly x: number; readonly y: number }[]): TrendPlace[] {
  const n = points.length;
  if (n < FEWEST) return [];
  const near = Math.round(NEAR * n);
  const half = COVERAGE / 2 / Math.sqrt(near);
  const places = Math.min(PLACES, n - near);
  return Array.from({ length: places + 1 }, (_, k) => {
    const first = Math.round((k / places) * (n - near));
    const own = points.slice(first, first + near);
    const steps = own.map(({ y }) => y).sort((a, b) => a - b);
    const quantile = (share: number) => groupedQuantile(steps, share);
    return {
      at: own[Math.floor(near / 2)]!.x,
      middle: quantile(0.5),
      low: quantile(0.5 - half),
      high: quantile(0.5 + half),
    };
  });
}
