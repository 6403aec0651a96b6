import type { FloorTable } from '../../shared/style.ts';
import { floorAt } from '../blade/floors.ts';
import type { ExcessMap } from './excess.ts';

/** Standard uncertainties by which a planned thickness must clear its floor: one-sided 95 %. */
export const FLOOR_FACTOR = 1.645;
/** The ball's patch over which a floor holds as a mean, mm. */
const PATCH_MM = 1;

/** How much may be taken at a place, and what forbids more. */
export interface Room {
  /** What the lower limit of the thickness clears the floor by, mm; below 0 where it does not, Infinity without a floor. */
  readonly mm: Float64Array;
  /** What the thickness itself clears the floor by, mm. */
  readonly clearMm: Float64Array;
  /** 1 where doubt alone forbids scraping: the thickness clears the floor, its lower limit does not. */
  readonly doubtful: Uint8Array;
}

/**
 * What may be taken from every place of a blade so that the mean over the ball's patch, less 1.645 standard
 * uncertainties, stays above the floor. Places without a floor are not limited.
 *
 * @param halfWidthMm Half the blade's width by distance from the tip.
 */
export function roomAbove(
  map: ExcessMap,
  floors: FloorTable,
  halfWidthMm: (fromTipMm: number) => number,
): Room {
  const columns = map.us.length;
  const mm = new Float64Array(map.valuesMm.length);
  const clearMm = new Float64Array(mm.length);
  const doubtful = new Uint8Array(mm.length);
  map.ysMm.forEach((y, row) =>
    map.us.forEach((u, column) => {
      const at = row * columns + column;
      const floor = floorAt(floors, y, u);
      clearMm[at] = floor === undefined ? Infinity : patchMean(map, row, column, halfWidthMm(y)) - floor;
      mm[at] = clearMm[at] - FLOOR_FACTOR * map.thicknessUMm[at]!;
      doubtful[at] = mm[at] <= 0 && clearMm[at] > 0 ? 1 : 0;
    }),
  );
  return { mm, clearMm, doubtful };
}

/** Lower of the thickness at a place and its mean over the patch around it: a narrow ridge lends no room. */
function patchMean(
  { ysMm, us, thicknessMm }: ExcessMap,
  row: number,
  column: number,
  halfWidth: number,
): number {
  let [sum, count] = [0, 0];
  for (let i = 0; i < ysMm.length; i++) {
    if (Math.abs(ysMm[i]! - ysMm[row]!) > PATCH_MM / 2) continue;
    for (let j = 0; j < us.length; j++) {
      if (Math.abs(us[j]! - us[column]!) * halfWidth > PATCH_MM / 2) continue;
      sum += thicknessMm[i * us.length + j]!;
      count += 1;
    }
  }
  return Math.min(sum / count, thicknessMm[row * us.length + column]!);
}
