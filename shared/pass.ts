import * as z from 'zod';
import { bladesSchema, remedySchema } from './remedy.ts';
import { idSchema } from './ids.ts';
import { readingSchema } from './reading.ts';
import { stampShape } from './stamp.ts';
import { labelSchema, momentSchema, overallLengthMmSchema, textSchema } from './units.ts';

export const MAX_READINGS = 5000;

export const wetnessSchema = z.enum(['dry', 'damp', 'wet']);

/** Where the knife went, in the maker's words. */
export const strokesSchema = z.strictObject({
  /** Name of a zone of the reed's style, or the maker's own word. */
  zone: z.string().trim().min(1).max(60),
  blade: bladesSchema,
  side: z.enum(['left', 'right', 'both']),
  fromTipMm: z.number().min(0).max(60).optional(),
  strokes: z.int().min(0).max(1000).optional(),
});
export type Strokes = z.infer<typeof strokesSchema>;

/** What was done with the knife before the readings of a pass. */
export const scrapeSchema = z.strictObject({
  knife: labelSchema.optional(),
  /** Time with the knife. */
  minutes: z.number().min(0).max(1440).optional(),
  wetness: wetnessSchema.optional(),
  places: z.array(strokesSchema).max(60),
  accident: z.enum(['dig', 'tear', 'chip', 'crack']).optional(),
});

const zeroMmSchema = z.number().min(-1).max(1);

/** One go with the knife and the readings taken after it; pass 0 is the blank or the first measuring. */
export const passSchema = z.strictObject({
  kind: z.literal('pass'),
  ...stampShape,
  reedId: idSchema,
  /** Order within the reed, from 0. */
  index: z.int().min(0).max(999),
  takenAt: momentSchema.optional(),
  overallLengthMm: overallLengthMmSchema.optional(),
  /** Cut from the tip since the pass before. */
  clipMm: z.number().min(0).max(5).optional(),
  wetness: wetnessSchema.optional(),
  soakMin: z.number().min(0).max(1e4).optional(),
  /** Height of the thread's top above the cork end. */
  threadMm: z.number().min(20).max(90).optional(),
  /** The thread was rewound: heights above it start anew. */
  threadMoved: z.boolean().optional(),
  gaugeId: idSchema.optional(),
  gaugeStepMm: z.number().positive().max(0.1).optional(),
  zeroBeforeMm: zeroMmSchema.optional(),
  zeroAfterMm: zeroMmSchema.optional(),
  openingMm: z.number().min(0).max(10).optional(),
  temperatureC: z.number().min(-40).max(60).optional(),
  humidityPct: z.number().min(0).max(100).optional(),
  scrape: scrapeSchema.optional(),
  /** Remedies for faults that the maker accepted, in the order in which they apply. */
  remedies: z.array(remedySchema).max(200),
  note: textSchema.optional(),
  readings: z.array(readingSchema).max(MAX_READINGS),
});
export type Pass = z.infer<typeof passSchema>;
