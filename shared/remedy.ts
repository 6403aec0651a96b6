import * as z from 'zod';
import { acrossSchema, bladeSchema, fromTipMmSchema, thicknessMmSchema } from './fields.ts';

/** A blade, or both. */
export const bladesSchema = z.enum(['A', 'B', 'both']);

/** What the maker accepted to put a faulty pass right. Readings stay as typed; the remedy is applied in computation. */
export const remedySchema = z.discriminatedUnion('kind', [
  /** The gauge added `addedMm` to every reading. */
  z.strictObject({ kind: z.literal('zero'), blade: bladesSchema, addedMm: z.number().min(-0.5).max(0.5) }),
  /** What the gauge added grew evenly from nothing at the first reading to `driftMm` at the last. */
  z.strictObject({ kind: z.literal('drift'), driftMm: z.number().min(-0.5).max(0.5) }),
  /** Readings are `factor` times what they were in the earlier state of wetness. */
  z.strictObject({ kind: z.literal('swelling'), blade: bladesSchema, factor: z.number().min(0.8).max(1.25) }),
  z.strictObject({ kind: z.literal('swapped') }),
  z.strictObject({ kind: z.literal('mirrored'), blade: bladesSchema }),
  /** The tip was clipped by this much before the readings. */
  z.strictObject({ kind: z.literal('clip'), clipMm: z.number().min(0).max(5) }),
  /** True distance from the tip less the written one. */
  z.strictObject({ kind: z.literal('shifted'), blade: bladesSchema, shiftMm: z.number().min(-5).max(5) }),
  z.strictObject({
    kind: z.literal('digits'),
    blade: bladeSchema,
    fromTipMm: fromTipMmSchema,
    across: acrossSchema,
    thicknessMm: thicknessMmSchema,
  }),
]);
export type Remedy = z.infer<typeof remedySchema>;
