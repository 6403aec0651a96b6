import type { Shape } from '../../shared/cane.ts';
import type { Planform } from '../../shared/planform.ts';
import type { Reed } from '../../shared/reed.ts';
import { planformOf } from './shapes.ts';

const SAME_MM = 0.005;

/**
 * The outline that a reed's shape would give it today, where that is another than the reed was tied with: somebody
 * corrected the shape since. A reed keeps the outline of its tying, for what was cut does not change with a record.
 *
 * @returns undefined where they are the same, or too little is known to say.
 */
export function correctedOutline(
  { planform, tie }: Pick<Reed, 'planform' | 'tie'>,
  shape: Pick<Shape, 'widths'>,
): Planform | undefined {
  if (!planform || tie?.overallMm === undefined) return undefined;
  const today = planformOf(shape, tie.overallMm);
  const isSame =
    today.widths.length === planform.widths.length &&
    today.widths.every(
      ({ fromCorkMm, widthMm }, i) =>
        Math.abs(fromCorkMm - planform.widths[i]!.fromCorkMm) < SAME_MM &&
        Math.abs(widthMm - planform.widths[i]!.widthMm) < SAME_MM,
    );
  return isSame ? undefined : today;
}
