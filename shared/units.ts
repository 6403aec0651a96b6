import * as z from 'zod';

/** Units a thickness is shown and typed in. Inside, it is always millimetres. */
export const thicknessUnitSchema = z.enum(['hundredths', 'mm', 'thou']);
export type ThicknessUnit = z.infer<typeof thicknessUnitSchema>;

/** Exact by definition: one inch is 25.4 mm. Source: international yard and pound agreement, 1959, from memory. */
const MM_PER_INCH = 25.4;

/** Millimetres in one of each unit. */
export const MM_PER: Readonly<Record<ThicknessUnit, number>> = {
  hundredths: 0.01,
  mm: 1,
  thou: MM_PER_INCH / 1000,
};

/** Sanity bounds that catch a slipped unit, not a bad blade. Common practice, no source. */
export const MAX_THICKNESS_MM = 2;
export const MAX_FROM_TIP_MM = 60;

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
