import * as z from 'zod';
import { acrossSchema, bladeSchema, fromTipMmSchema, thicknessMmSchema } from './fields.ts';

export const flagSchema = z
  .enum(['ok', 'weak', 'doubtful', 'no-cane', 'wire'])
  .describe('How far a reading may be believed, or why there is none.');
export type Flag = z.infer<typeof flagSchema>;

export const roleSchema = z
  .enum(['station', 'control'])
  .describe(
    'A station belongs to the surface; a control is untouched cane that tells a moved zero from swelling.',
  );
export type Role = z.infer<typeof roleSchema>;

/**
 * One number from the gauge at one place, as it was read: never altered, corrected only in computation.
 * `thicknessMm` is absent where there was nothing to read (`no-cane`, `wire`) or the station was skipped.
 */
export const readingSchema = z.strictObject({
  blade: bladeSchema,
  fromTipMm: fromTipMmSchema,
  across: acrossSchema,
  thicknessMm: thicknessMmSchema.optional(),
  repeat: z.int().min(0).max(999).describe('Counts readings of the same place in the same pass, from 0.'),
  flag: flagSchema,
  role: roleSchema,
  method: z
    .string()
    .max(40)
    .optional()
    .describe('How the number was come by, for example lowest while rocking, or mean.'),
  seconds: z.number().min(0).max(1e6).optional().describe('Seconds since the round began.'),
  extra: z
    .record(z.string().max(80), z.string().max(400))
    .optional()
    .describe('Columns of an imported file that the bench does not know; kept and written back.'),
});
export type Reading = z.infer<typeof readingSchema>;
