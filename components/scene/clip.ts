import { PlaneGeometry } from 'three';
import { PALETTE } from '../theme/palette.ts';
import { BodyParts, LIFT_MM, type BladeBody, type BodyLook } from './blade-body.ts';
import { plainMaterial } from './cane-material.ts';
import { evenly } from './body-faces.ts';

/** How far the plane of a clip reaches past the blade, and how deep it stands, mm of the scene. */
const PLANE = { pastMm: 0.7, deepMm: 2.6 };
const STEPS = 40;

/** Where a clip would cut: a grey plane across, and the new tip as a dotted line on the bark. */
export function clipParts(body: BladeBody, clipMm: number, look: BodyLook): BodyParts {
  const parts = new BodyParts();
  const { ink, ink3 } = PALETTE[look.theme];
  const width = 2 * (body.surface.thickness.halfWidthMm(clipMm) + PLANE.pastMm);
  const plane = parts.mesh(
    'plane of the clip',
    new PlaneGeometry(width, PLANE.deepMm),
    plainMaterial(ink3, look.light, { opacity: 0.3 }),
  );
  plane.rotation.x = Math.PI / 2;
  plane.position.set(0, -clipMm, PLANE.deepMm / 4);
  parts.line(
    'the tip after the clip',
    [evenly(-1, 1, STEPS).map((u) => body.surface.on(clipMm, u, LIFT_MM))],
    { colour: ink, width: 2, dash: [0.12, 0.16] },
  );
  return parts;
}
