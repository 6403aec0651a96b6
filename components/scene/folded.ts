import type { BladeGrid } from '../map/map-data.ts';
import { PALETTE } from '../theme/palette.ts';
import { ramp } from '../theme/ramp.ts';
import { BodyParts, LIFT_MM, type BladeBody } from './blade-body.ts';
import { above, Told, type Height, type PrintLook } from './blocks.ts';
import { evenly, sheetFaces } from './body-faces.ts';
import { plainMaterial } from './cane-material.ts';
import type { Vec3 } from './vec3.ts';

const SHEET = { rows: 24, columns: 8, steps: 60, across: 40 };
const BRIDGES = { along: 46, across: 16 };
/** Height at which A is held over B when the reed is folded, mm of the scene. */
export const FOLDED_MM = 3;

/**
 * A held as a sheet of thin lines above B, which lies under it bark up, turned over along side 2; bridges stand where the
 * facing difference (A less B, on A's grid) is measurable.
 *
 * @param b The body that lies below: mirrored, so that B at -u stands under A at u.
 * @param a The sheet's own thickness.
 */
export function foldedParts(b: BladeBody, a: BladeBody, difference: BladeGrid, look: PrintLook): BodyParts {
  const parts = new BodyParts();
  const told = new Told(difference);
  const { theme, light, factor, differenceFactor } = look;
  const { bladeA } = PALETTE[theme];
  // The sheet hangs over B's own shape by the difference, so that where both are alike it follows B.
  const under: Height = (y, u) => factor * b.surface.thickness.at(y, -u) + LIFT_MM;
  const sheet: Height = (y, u) =>
    under(y, u) + FOLDED_MM + differenceFactor * told.at(y, u) * told.isTold(y, u);
  const end = a.blade.bladeLengthMm;
  const rows = evenly(look.fromMm, end, SHEET.rows).map((y) =>
    a.us(SHEET.across).map((u) => above(a, y, u, sheet(y, u))),
  );
  const columns = evenly(-1, 1, SHEET.columns).map((u) =>
    a.ys(SHEET.steps).map((y) => above(a, y, u, sheet(y, u))),
  );
  parts.line('A as a sheet', [...rows, ...columns], { colour: bladeA, width: 0.8, opacity: 0.8 });
  parts.mesh(
    'A as glass',
    sheetFaces(a.ys(SHEET.steps), a.us(SHEET.across), (y, u) => ({
      point: above(a, y, u, sheet(y, u)),
      print: {},
    })),
    plainMaterial(bladeA, light, { opacity: 0.08 }),
  );
  const scale = ramp('difference', theme);
  const bridges = { more: [] as Vec3[][], less: [] as Vec3[][] };
  for (const y of evenly(look.fromMm, end, BRIDGES.along))
    for (const u of evenly(-0.96, 0.96, BRIDGES.across))
      if (told.isTold(y, u) >= 0.5)
        bridges[told.at(y, u) > 0 ? 'more' : 'less'].push([
          above(a, y, u, under(y, u)),
          above(a, y, u, sheet(y, u)),
        ]);
  const strong = (end: -1 | 1) => scale.bands[end < 0 ? 2 : scale.bands.length - 3]!.colour;
  parts.line('bridges where A is thicker', bridges.more, { colour: strong(1), width: 3 });
  parts.line('bridges where A is thinner', bridges.less, { colour: strong(-1), width: 3, dash: [0.2, 0.12] });
  return parts;
}
