import * as z from 'zod';
import { idSchema } from './ids.ts';
import { stampShape } from './stamp.ts';
import { labelSchema, momentSchema, textSchema } from './fields.ts';

/** The air at one place and time. */
export const airShape = {
  temperatureC: z.number().min(-40).max(60).optional(),
  humidityPct: z.number().min(0).max(100).optional(),
  elevationM: z.number().min(-500).max(9000).optional(),
};

export const airReadingSchema = z.strictObject({
  kind: z.literal('air'),
  ...stampShape,
  at: momentSchema,
  place: z.string().max(120).optional(),
  ...airShape,
});
export type AirReading = z.infer<typeof airReadingSchema>;

/** Something to be played for, on a date. */
export const engagementSchema = z.strictObject({
  kind: z.literal('engagement'),
  ...stampShape,
  title: labelSchema,
  at: momentSchema,
  wants: z
    .array(z.enum(['loud and long', 'intimate', 'dry hall', 'damp hall', 'high town', 'cold church']))
    .max(6),
  ...airShape,
  reedId: idSchema.optional(),
  note: textSchema.optional(),
});
export type Engagement = z.infer<typeof engagementSchema>;

/** One time a reed was played, practice included. */
export const useSchema = z.strictObject({
  kind: z.literal('use'),
  ...stampShape,
  reedId: idSchema,
  at: momentSchema,
  minutes: z.number().min(0).max(1440),
  service: z.enum(['practice', 'lesson', 'rehearsal', 'concert', 'recording']),
  felt: z.int().min(1).max(5).optional(),
  note: textSchema.optional(),
});
export type Use = z.infer<typeof useSchema>;
