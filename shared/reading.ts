import * as z from 'zod';
import { bladeSchema } from './blade.ts';
import { acrossSchema, fromTipMmSchema, thicknessMmSchema } from './units.ts';

/** How far a reading may be believed, or why there is none. */
export const flagSchema = z.enum(['ok', 'weak', 'doubtful', 'no-cane', 'wire']);
export type Flag = z.infer<typeof flagSchema>;

/** A station belongs to the surface; a control is untouched cane that tells a moved zero from swelling. */
export const roleSchema = z.enum(['station', 'control']);
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
  /** Counts readings of the same place in the same pass, from 0. */
  repeat: z.int().min(0).max(999),
  flag: flagSchema,
  role: roleSchema,
  /** How the number was come by, for example `lowest` while rocking, or `mean`. */
  method: z.string().max(40).optional(),
  /** Seconds since the round began. */
  seconds: z.number().min(0).max(1e6).optional(),
  /** Columns of an imported file that the bench does not know; kept and written back. */
  extra: z.record(z.string().max(80), z.string().max(400)).optional(),
});
export type Reading = z.infer<typeof readingSchema>;
