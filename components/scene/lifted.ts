import { PALETTE } from '../theme/palette.ts';
import type { BladeGrid } from '../map/map-data.ts';
import { BodyParts, LIFT_MM, type BladeBody } from './blade-body.ts';
import { addBlocks, Told, type Height, type PrintLook } from './blocks.ts';

/** Height at which what was taken off hangs when it is lifted in full, mm of the scene. */
export const LIFTED_MM = 2.6;

/** What was taken off, lifted over the place that it left, and that place's border on the bark. */
export function liftedParts(body: BladeBody, difference: BladeGrid, look: PrintLook): BodyParts {
  const parts = new BodyParts();
  const told = new Told(difference);
  const bark: Height = (y, u) => look.factor * body.surface.thickness.at(y, u) + LIFT_MM;
  const low: Height = (y, u) => bark(y, u) + look.lift * LIFTED_MM;
  const high: Height = (y, u) => low(y, u) + look.differenceFactor * Math.abs(told.at(y, u));
  addBlocks(parts, body, look, told, low, high);
  const { excess } = PALETTE[look.theme];
  const places = told.borders().map((border) => [...border, border[0]!]);
  parts.line(
    'where it was',
    places.map((run) => run.map(({ fromTipMm, across }) => body.surface.on(fromTipMm, across, LIFT_MM))),
    { colour: excess, width: 1.2, dash: [0.14, 0.14] },
  );
  return parts;
}
