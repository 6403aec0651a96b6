import * as z from 'zod';
import { stampShape } from './stamp.ts';

const phraseSchema = z.string().trim().max(240);

/** What the figures of a zone may show that speaks for a row. */
export const signSchema = z.strictObject({
  zone: z.string().min(1).max(60),
  is: z
    .enum(['over', 'under', 'uneven'])
    .describe('Thicker or thinner than what the reed is brought to, or uneven between its halves or blades.'),
});
export type Sign = z.infer<typeof signSchema>;

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
  signs: z
    .array(signSchema)
    .max(40)
    .readonly()
    .optional()
    .describe('A row without them has those of the starting row in whose place it stands.'),
  contested: z.literal(true).optional(),
  whoSays: phraseSchema.optional().describe('Whose practice it is.'),
  off: z.literal(true).optional().describe('Switched off: kept, not shown among what to try.'),
});
export type HabitDocument = z.infer<typeof habitSchema>;
