import type { Planform } from '../../shared/planform.ts';

/** Half-width of a blade at a distance from the cork end, straight between the given widths and level beyond them. */
export function halfWidthAt({ widths }: Planform, fromCorkMm: number): number {
  const next = widths.findIndex((width) => width.fromCorkMm >= fromCorkMm);
  if (next === 0) return widths[0]!.widthMm / 2;
  if (next === -1) return widths.at(-1)!.widthMm / 2;
  const [a, b] = [widths[next - 1]!, widths[next]!];
  const share = (fromCorkMm - a.fromCorkMm) / (b.fromCorkMm - a.fromCorkMm);
  return (a.widthMm + share * (b.widthMm - a.widthMm)) / 2;
}

/** Usual widths by distance from the tip, mm, for a tip 1 mm wide. Common practice, no source. */
const USUAL_SHARES: readonly (readonly [fromTipMm: number, share: number])[] = [
  [0, 1],
  [2, 0.994],
  [5, 0.963],
  [8, 0.909],
  [11, 0.847],
  [15, 0.77],
  [19, 0.706],
  [23, 0.664],
  [26, 0.65],
];

/**
 * Planform assumed where none was measured: nearly parallel near the tip, then curving in. Common practice, no source.
 *
 * @param tipFromCorkMm Overall length of the first pass.
 * @param tipWidthMm Usual: 7.0 for a long scrape, 7.2 for a short one.
 */
export function assumedPlanform(tipFromCorkMm: number, tipWidthMm: number): Planform {
  const widths = USUAL_SHARES.map(([fromTipMm, share]) => ({
    fromCorkMm: tipFromCorkMm - fromTipMm,
    widthMm: tipWidthMm * share,
  }));
  return { widths: widths.reverse() };
}
