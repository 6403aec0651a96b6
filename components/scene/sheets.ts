import { gridValue } from '../map/blade-drawing.ts';
import { PALETTE } from '../theme/palette.ts';
import { BodyParts, type BladeBody, type BodyLook } from './blade-body.ts';
import { BladeField } from './blade-field.ts';
import { evenly, sheetFaces } from './body-faces.ts';
import { plainMaterial } from './cane-material.ts';
import type { Vec3 } from './vec3.ts';

const FLOOR_LINES = { eachMm: 1, steps: 30 };
const GLASS_STEPS = { along: 80, across: 32 };

/** The floor inside the cane, ruled each millimetre, seen through it; nothing where a place has none. */
export function floorParts(body: BladeBody, floorMm: ArrayLike<number>, look: BodyLook): BodyParts {
  const parts = new BodyParts();
  const { blade } = body;
  const { ink } = PALETTE[look.theme];
  const rows = evenly(0, blade.bladeLengthMm, Math.round(blade.bladeLengthMm / FLOOR_LINES.eachMm));
  const runs = rows.flatMap((fromTipMm) => {
    const found: Vec3[][] = [[]];
    for (const across of evenly(-1, 1, FLOOR_LINES.steps)) {
      const floor = gridValue(blade, floorMm, { fromTipMm, across });
      if (Number.isNaN(floor) || fromTipMm < look.fromMm) found.push([]);
      else found.at(-1)!.push(body.surface.arch.point(fromTipMm, across, floor));
    }
    return found;
  });
  parts.line('floor', runs, { colour: ink, width: 1, opacity: 0.4, through: true });
  return parts;
}

/** The cane as it was gouged, as glass above. */
export function originalParts(body: BladeBody, originalMm: ArrayLike<number>, look: BodyLook): BodyParts {
  const parts = new BodyParts();
  const cane = new BladeField(body.blade, originalMm);
  const at = (y: number, u: number) => body.surface.arch.point(y, u, cane.at(y, u));
  const { ink3 } = PALETTE[look.theme];
  parts.mesh(
    'cane as gouged',
    sheetFaces(body.ys(GLASS_STEPS.along), body.us(GLASS_STEPS.across), (y, u) => ({
      point: at(y, u),
      print: {},
    })),
    plainMaterial(ink3, look.light, { opacity: 0.16 }),
  );
  parts.line(
    'rim of the cane as gouged',
    [-1, 1].map((u) => body.ys(GLASS_STEPS.along).map((y) => at(y, u))),
    { colour: ink3, width: 1 },
  );
  return parts;
}
