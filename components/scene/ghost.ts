import type { BladeGrid } from '../map/map-data.ts';
import { PALETTE } from '../theme/palette.ts';
import { BodyParts, LIFT_MM, type BladeBody } from './blade-body.ts';
import { BladeField } from './blade-field.ts';
import { above, addBlocks, PRINT_STEPS, Told, type Height, type PrintLook } from './blocks.ts';
import { evenly, sheetFaces } from './body-faces.ts';
import { plainMaterial } from './cane-material.ts';

const RIBS = { eachMm: 2, steps: 40, liftMm: 0.05 };

/** The favourite as glass with double ribs; the new reed's excess stands out of it, its lack is a hollow. */
export function ghostParts(
  body: BladeBody,
  targetMm: ArrayLike<number>,
  difference: BladeGrid,
  look: PrintLook,
): BodyParts {
  const parts = new BodyParts();
  const target = new BladeField(difference, targetMm);
  const told = new Told(difference);
  const glass: Height = (y, u) => look.factor * target.at(y, u);
  const { favourite } = PALETTE[look.theme];
  const end = Math.max(...Array.from(difference.ysMm).filter((_, j) => isRowKnown(difference, targetMm, j)));
  const ys = body.ys(PRINT_STEPS.along).filter((y) => y <= end);
  parts.mesh(
    'favourite as glass',
    sheetFaces(ys, body.us(PRINT_STEPS.across), (y, u) => ({
      point: above(body, y, u, glass(y, u)),
      print: {},
    })),
    plainMaterial(favourite, look.light, { opacity: 0.16 }),
  );
  const rib = (y: number) =>
    evenly(-1, 1, RIBS.steps).map((u) => above(body, y, u, glass(y, u) + RIBS.liftMm));
  const ribs = evenly(0, end, Math.round(end / RIBS.eachMm)).filter((y) => y >= look.fromMm);
  const { plate } = PALETTE[look.theme];
  parts.line('ribs of the favourite', ribs.map(rib), { colour: favourite, width: 3.4 });
  parts.line('cores of the ribs', ribs.map(rib), { colour: plate, width: 1.3 });
  const stand: Height = (y, u) => look.differenceFactor * told.at(y, u);
  addBlocks(
    parts,
    body,
    look,
    told,
    (y, u) => glass(y, u) + Math.min(0, stand(y, u)) + LIFT_MM,
    (y, u) => glass(y, u) + Math.max(0, stand(y, u)) + 2 * LIFT_MM,
  );
  return parts;
}

const isRowKnown = ({ us }: BladeGrid, values: ArrayLike<number>, j: number) =>
  Array.from(us, (_, i) => values[j * us.length + i]!).some((value) => !Number.isNaN(value));
