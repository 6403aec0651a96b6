import type { Shape } from '../../shared/cane.ts';
import { widthAt } from './shapes.ts';

type Widths = Shape['widths'];

/** A straight taper that outlines are drawn on, and what stands out from it. */
export interface Flare {
  readonly taper: Widths;
  /** Full width less that of the taper, mm, at distances from the fold, for each outline. */
  readonly outlines: readonly (readonly { readonly fromFoldMm: number; readonly outMm: number }[])[];
}

/**
 * What stands out of several outlines from one straight taper: from the mean width at the fold to the mean width at the
 * end of the shortest.
 *
 * @param shapes One or more outlines.
 */
export function flareOf(shapes: readonly Widths[]): Flare {
  const from = Math.max(...shapes.map((widths) => widths[0]!.fromFoldMm));
  const to = Math.min(...shapes.map((widths) => widths.at(-1)!.fromFoldMm));
  const meanAt = (place: number) =>
    shapes.reduce((sum, widths) => sum + widthAt(widths, place), 0) / shapes.length;
  const taper = [from, to].map((fromFoldMm) => ({ fromFoldMm, widthMm: meanAt(fromFoldMm) }));
  const slope = (taper[1]!.widthMm - taper[0]!.widthMm) / (to - from);
  const straight = (place: number) => taper[0]!.widthMm + slope * (place - from);
  return {
    taper,
    outlines: shapes.map((widths) =>
      widths.map(({ fromFoldMm, widthMm }) => ({ fromFoldMm, outMm: widthMm - straight(fromFoldMm) })),
    ),
  };
}
