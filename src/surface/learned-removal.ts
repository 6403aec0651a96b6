import { knotSpacing } from '../numerics/uniform-b-spline.ts';
import type { LearnedPrior } from './learned-prior.ts';
import type { RemovalSpace } from './removal-space.ts';

/** So far a station speaks of coefficients about it: one standard deviation along, mm, and across. */
const REACH = { alongMm: 1, across: 0.3 } as const;
/** The usual weighs as much as a station so far away, in standard deviations: behind the last station it stands. */
const USUAL_AWAY = 3;

/**
 * A removal's space with what the maker's knife usually takes about each of its coefficients, where that was
 * learned.
 *
 * @param lengthMm Tip to cork end, of the pass from whose tip the stations are counted.
 */
export function inKnifesWay(
  space: RemovalSpace,
  learned: Pick<LearnedPrior, 'stations' | 'knife'> | undefined,
  lengthMm: number,
): RemovalSpace {
  if (!learned?.knife) return space;
  const { stations, knife } = learned;
  const { along, across } = space;
  const usually = Float64Array.from({ length: along.count * across.count }, (_, k) => {
    const fromTipMm = lengthMm - (along.from + (Math.floor(k / across.count) - 1) * knotSpacing(along));
    const u = across.from + ((k % across.count) - 1) * knotSpacing(across);
    let [sum, total] = [0, 0];
    const add = (ratio: number, awaySquared: number) => {
      const share = Math.exp(-awaySquared / 2);
      sum += share * ratio;
      total += share;
    };
    add(1, USUAL_AWAY ** 2);
    stations.forEach((station, i) =>
      add(
        knife[i]!,
        ((station.fromTipMm - fromTipMm) / REACH.alongMm) ** 2 + ((station.across - u) / REACH.across) ** 2,
      ),
    );
    return sum / total;
  });
  return { ...space, usually };
}
