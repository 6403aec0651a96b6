import type { Place } from '../../shared/blade.ts';
import type { ReliefBlade } from '../relief/relief-data.ts';
import { PALETTE, type Theme } from '../theme/palette.ts';
import { BodyParts } from './blade-body.ts';
import { held } from './motion.ts';
import type { ReedModel } from './reed-model.ts';
import type { Vec3 } from './vec3.ts';

const RING = { radiusMm: 0.42, steps: 28, overMm: 0.05 };

/** A ring on the bark about a place; undefined where nothing was read. */
function ringAt(
  model: ReedModel,
  blades: readonly ReliefBlade[],
  { blade, fromTipMm, across }: Place,
): Vec3[] | undefined {
  if (!model.seat({ blade, fromTipMm, across })) return undefined;
  const half = blades.find((one) => one.blade === blade)?.halfWidthMm[0] ?? 1;
  return Array.from({ length: RING.steps + 1 }, (_, k) => {
    const angle = (2 * Math.PI * k) / RING.steps;
    const seat = model.seat(
      {
        blade,
        fromTipMm: Math.max(fromTipMm + RING.radiusMm * Math.cos(angle), 0),
        across: held(across + (RING.radiusMm / half) * Math.sin(angle), -1, 1),
      },
      RING.overMm,
    );
    return seat?.point.toArray();
  }).filter((point) => point !== undefined);
}

/** Rings about places, seen through the body; undefined where none of them was read. Its maker calls `dispose`. */
export function markPlaces(
  model: ReedModel,
  blades: readonly ReliefBlade[],
  places: readonly Place[],
  theme: Theme,
): BodyParts | undefined {
  const rings = places.flatMap((place) => {
    const ring = ringAt(model, blades, place);
    return ring ? [ring] : [];
  });
  if (rings.length === 0) return undefined;
  const mark = new BodyParts();
  const { ink, plate } = PALETTE[theme];
  mark.line('halo of the place', rings, { colour: plate, width: 5, through: true });
  mark.line('place', rings, { colour: ink, width: 2, through: true });
  return mark;
}
