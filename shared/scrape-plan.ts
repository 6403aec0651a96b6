import * as z from 'zod';
import { bladeSchema, labelSchema } from './fields.ts';
import { idSchema } from './ids.ts';
import { stampShape } from './stamp.ts';

const amountMmSchema = z.number().min(0).max(2);

/** Where strokes go on one blade: a row of 0 and 1 for each distance from the tip, one sign for each place across. */
const placesSchema = z.strictObject({
  blade: bladeSchema,
  rows: z.array(z.string().regex(/^[01]{1,201}$/)).max(201),
});

/** One piece of work as it was meant. */
export const plannedStepSchema = z.strictObject({
  zone: z.string().min(1).max(31),
  title: labelSchema,
  side: z.enum(['left', 'right', 'both']),
  fromMm: z.number().min(0).max(60),
  toMm: z.number().min(0).max(60),
  takeMm: amountMmSchema,
  excessMm: amountMmSchema,
  uMm: amountMmSchema,
  strokes: z.int().min(1).max(1000).optional(),
  places: z.array(placesSchema).min(1).max(2),
});
export type PlannedStep = z.infer<typeof plannedStepSchema>;

/** A plan that the maker took up, kept so that the next pass can be set beside it. */
export const scrapePlanSchema = z.strictObject({
  kind: z.literal('scrape-plan'),
  ...stampShape,
  reedId: idSchema,
  afterPass: z.int().min(0).max(999).describe('The pass whose readings it was made from.'),
  towards: labelSchema.describe('What it was to come nearer to, in words.'),
  knife: labelSchema.optional(),
  ysMm: z
    .array(z.number().min(0).max(60))
    .min(1)
    .max(201)
    .describe("Distances from that pass's tip, mm, and places across, of the rows of every step."),
  us: z.array(z.number().min(-1).max(1)).min(1).max(201),
  steps: z.array(plannedStepSchema).min(1).max(20),
});
export type ScrapePlan = z.infer<typeof scrapePlanSchema>;
