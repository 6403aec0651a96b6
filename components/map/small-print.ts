import { nothing, svg } from 'lit';
import { labelLayer } from './contour-labels.ts';
import type { Contour } from './level-lines.ts';
import { stationBoxes, type StationLook } from './station-layer.ts';
import { zoneNamesLayer } from './zone-names.ts';

/** What is written small between the numbers: the values of contour lines, and on a difference the names of the zones. */
export function smallPrint(
  look: Omit<StationLook, 'current'>,
  contours: readonly Contour[],
  fontSize: number,
) {
  const taken = stationBoxes(look);
  const named = look.quantity === 'difference' && !look.numbersOnly;
  return svg`${labelLayer({ ...look, contours, taken, fontSize })}
    ${named ? zoneNamesLayer(look.drawing, look.data, taken, fontSize) : nothing}`;
}
