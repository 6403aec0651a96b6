import * as z from 'zod';
import { stampShape } from './stamp.ts';

const phraseSchema = z.string().trim().max(240);

/** A row of the maker's own table. One with the key of a starting row stands in for it. */
export const habitSchema = z.strictObject({
  kind: z.literal('habit'),
  ...stampShape,
  key: z.string().regex(/^[a-z0-9][a-z0-9-]{0,60}$/),
  symptom: phraseSchema.min(1),
  lookAt: phraseSchema,
  longScrape: phraseSchema.optional(),
  shortScrape: phraseSchema.optional(),
  action: phraseSchema,
  risk: phraseSchema.optional(),
  contested: z.literal(true).optional(),
  /** Whose practice it is. */
  whoSays: phraseSchema.optional(),
  /** Switched off: kept, not shown among what to try. */
  off: z.literal(true).optional(),
});
export type HabitDocument = z.infer<typeof habitSchema>;
