import { assumedPlanform, halfWidthAt } from '../../src/blade/planform.ts';
import { startingStyle } from '../../src/blade/starting-styles.ts';
import type { MapGrid } from '../../src/figures/surface-map.ts';
import { USUAL_OVERALL_MM } from '../../src/reed/overall-lengths.ts';
import type { BladeMapData } from './map-data.ts';

/** From the tip to the thread, mm. */
export const USUAL_BLADE_MM = 21;

/** A map on the usual outline of a style, for what belongs to no one reed: a blade without readings and zones. */
export function styleBlade(
  styleKey: string,
  { ysMm, us }: MapGrid,
  values: Pick<BladeMapData, 'valuesMm' | 'measurable'>,
): BladeMapData {
  const planform = assumedPlanform(USUAL_OVERALL_MM, startingStyle(styleKey).tipWidthMm);
  const halfWidthMm = ysMm.map((y) => halfWidthAt(planform, USUAL_OVERALL_MM - y));
  return {
    blade: 'A',
    bladeLengthMm: USUAL_BLADE_MM,
    ysMm,
    us,
    halfWidthMm,
    ...values,
    marks: [],
    zones: [],
  };
}
