// Fields that several kinds of document have.
import * as z from 'zod';
import { BLADES } from './blade.ts';
import { MAX_FROM_TIP_MM, MAX_THICKNESS_MM, THICKNESS_UNITS } from './units.ts';

export const bladeSchema = z.enum(BLADES);
export const thicknessUnitSchema = z.enum(THICKNESS_UNITS);
export const thicknessMmSchema = z.number().positive().max(MAX_THICKNESS_MM).describe('Thickness, mm.');
export const fromTipMmSchema = z
  .number()
  .min(-1)
  .max(MAX_FROM_TIP_MM)
  .describe('Distance from the tip as it was, towards the cork, mm.');
export const acrossSchema = z
  .number()
  .min(-1)
  .max(1)
  .describe(
    'Position across as a fraction of the half-width: -1 at the left edge, +1 at the right one, seen from the bark side with the tip up.',
  );
export const overallLengthMmSchema = z.number().min(40).max(100).describe('Tip to cork end, mm.');
/** Free text that a maker writes. */
export const textSchema = z.string().max(4000);
/** A short name or label. */
export const labelSchema = z.string().trim().min(1).max(80);
/** Local date and time with its zone offset. */
export const momentSchema = z.iso.datetime({ offset: true, local: true });
export const daySchema = z.iso.date();
