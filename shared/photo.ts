import * as z from 'zod';
import { idSchema } from './ids.ts';
import { stampShape } from './stamp.ts';
import { momentSchema, textSchema } from './fields.ts';

/** Bound on one picture, bytes: a large photograph as a telephone saves it. Common practice, no source. */
export const MAX_PHOTO_BYTES = 8_000_000;

export const sha256Schema = z.string().regex(/^[0-9a-f]{64}$/);

/** A photograph kept beside a reed, a pass or anything else. The bytes are kept apart, under their SHA-256. */
export const photoSchema = z.strictObject({
  kind: z.literal('photo'),
  ...stampShape,
  of: idSchema.describe('What it shows.'),
  sha256: sha256Schema,
  bytes: z.int().min(1).max(MAX_PHOTO_BYTES),
  mediaType: z.enum(['image/jpeg', 'image/png', 'image/webp']),
  takenAt: momentSchema.optional(),
  note: textSchema.optional(),
});
export type Photo = z.infer<typeof photoSchema>;
