import type { Blade } from '../../shared/blade.ts';
import type { ThicknessUnit } from '../../shared/units.ts';
import { locate } from '../map/blade-drawing.ts';
import { contourLevels } from '../map/level-lines.ts';
import type { ReliefBlade } from './relief-data.ts';

/** Where a strong contour line crosses the middle of a blade. */
export interface SpineLevel {
  readonly blade: Blade;
  readonly levelMm: number;
  readonly fromTipMm: number;
}

/** The crossings of a blade's strong contour lines with its middle, from the tip. */
export function spineLevels(blade: ReliefBlade, unit: ThicknessUnit): SpineLevel[] {
  const { us, ysMm, valuesMm } = blade;
  const [column, share] = locate(us, 0);
  const values = Array.from(ysMm, (_, j) => {
    const [one, other] = [valuesMm[j * us.length + column]!, valuesMm[j * us.length + column + 1]!];
    return share === 0 ? one : one + share * (other - one);
  });
  const levels = contourLevels('thickness', unit, values).filter(({ strong }) => strong);
  return values.slice(1).flatMap((to, j) => {
    const from = values[j]!;
    return levels
      .filter(({ levelMm }) => from < levelMm !== to < levelMm && !Number.isNaN(from + to))
      .map(({ levelMm }) => ({
        blade: blade.blade,
        levelMm,
        fromTipMm: ysMm[j]! + ((levelMm - from) / (to - from)) * (ysMm[j + 1]! - ysMm[j]!),
      }))
      .sort((one, other) => one.fromTipMm - other.fromTipMm);
  });
}
