import { PALETTE } from '../theme/palette.ts';
import type { BladeGrid } from '../map/map-data.ts';
import { BodyParts, LIFT_MM, type BladeBody } from './blade-body.ts';
import { above, addBlocks, Told, type Height, type PrintLook } from './blocks.ts';
import { hatching } from './hatching.ts';

/** Height at which what was taken off hangs when it is lifted in full, mm of the scene. */
export const LIFTED_MM = 2.6;

/** What was taken off, to be lifted over the place that it left; hatched where only its patch is sure. */
export function sliceParts(body: BladeBody, difference: BladeGrid, look: PrintLook): BodyParts {
  const parts = new BodyParts();
  const told = new Told(difference);
  const low: Height = (y, u) => look.factor * body.surface.thickness.at(y, u) + LIFT_MM;
  const high: Height = (y, u) => low(y, u) + look.differenceFactor * Math.abs(told.at(y, u));
  addBlocks(parts, body, look, told, low, high);
  const { ink } = PALETTE[look.theme];
  const runs = difference.between ? hatching(difference, difference.between) : [];
  parts.line(
    'rest of a patch',
    runs.map((run) =>
      run.map(({ fromTipMm: y, across: u }) => above(body, y, u, Math.max(low(y, u), high(y, u)) + LIFT_MM)),
    ),
    { colour: ink, width: 0.8, opacity: 0.7 },
  );
  return parts;
}

/** The border, on the bark, of the places that something was taken off. */
export function leftParts(body: BladeBody, difference: BladeGrid, look: PrintLook): BodyParts {
  const parts = new BodyParts();
  const places = new Told(difference).borders().map((border) => [...border, border[0]!]);
  parts.line(
    'where it was',
    places.map((run) => run.map(({ fromTipMm, across }) => body.surface.on(fromTipMm, across, LIFT_MM))),
    { colour: PALETTE[look.theme].excess, width: 1.2, dash: [0.14, 0.14] },
  );
  return parts;
}
