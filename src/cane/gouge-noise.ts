import type { Gauge } from '../../shared/gauge.ts';
import { readingScatter } from '../gauge/judge-gauge.ts';
import { resolutionU } from '../gauge/resolution.ts';

/** How good one reading of gouged cane is. */
export interface GougeNoise {
  readonly seatingMm: number;
  readonly stepMm: number;
  /** How well the ball is placed across the piece. */
  readonly placementMm: number;
}

/** Where no gauge is known. Flat cane seats better than a blade on a tongue. Common practice, no source. */
export const USUAL_GOUGE_NOISE: GougeNoise = { seatingMm: 0.004, stepMm: 0.01, placementMm: 0.15 };

/** The noise of the maker's own gauge, as far as it was studied or declared; the usual one for the rest. */
export function gougeNoise(gauge: Gauge | undefined): GougeNoise {
  if (!gauge) return USUAL_GOUGE_NOISE;
  const { sdMm, from } = readingScatter(gauge);
  const { stepMm, placementSdMm } = gauge;
  // The judged scatter holds the display's step as well.
  const seatingMm =
    from === 'usual'
      ? USUAL_GOUGE_NOISE.seatingMm
      : Math.sqrt(Math.max(0, sdMm ** 2 - resolutionU(stepMm) ** 2));
  return { seatingMm, stepMm, placementMm: placementSdMm ?? USUAL_GOUGE_NOISE.placementMm };
}
