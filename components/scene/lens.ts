import { side1Of } from '../map/blade-drawing.ts';
import { LENS_AHEAD_MM } from '../relief/relief-data.ts';
import { PALETTE } from '../theme/palette.ts';
import { BodyParts, type BladeBody, type BodyLook } from './blade-body.ts';
import type { Vec3 } from './vec3.ts';

const STEPS = 24;
/** Room over its middle, mm of the scene. */
const NAME_MM = 2.6;
const DASH = [0.35, 0.3] as const;

const ahead = ([x, y, z]: Vec3): Vec3 => [x, y + LENS_AHEAD_MM, z];

/** Room on side 1 for its corners' figures, mm of the scene: on the other side the reed itself reaches further. */
const FIGURES_MM = 2.4;

/** Points that have to be in sight, its name over it and the figures on side 1 among them. */
export function lensReach({ surface, blade }: BladeBody): Vec3[] {
  const side1 = side1Of(blade.blade);
  const [x, y, z] = surface.on(0, side1);
  return [[x + side1 * FIGURES_MM, y, z] as const, surface.on(0, 0, NAME_MM), surface.on(0, -side1)].map(
    ahead,
  );
}

/** The tip's cut of a blade, drawn ahead of it, joined by dotted lines to the corners that it comes from. */
export function lensParts(body: BladeBody, look: BodyLook): BodyParts {
  const parts = new BodyParts();
  const { ink, ink2 } = PALETTE[look.theme];
  const { surface } = body;
  const us = Array.from({ length: STEPS + 1 }, (_, k) => (2 * k) / STEPS - 1);
  const bark = us.map((u) => surface.on(0, u));
  const inside = us.map((u) => surface.arch.point(0, u, 0)).reverse();
  parts.line('the opening ahead of the tip', [[...bark, ...inside, bark[0]!].map(ahead)], {
    colour: ink,
    width: 1.4,
  });
  const joints = [bark[0]!, bark[STEPS]!].map((corner) => [corner, ahead(corner)]);
  parts.line('from where the opening comes', joints, { colour: ink2, width: 1, dash: DASH });
  return parts;
}
