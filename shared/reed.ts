import * as z from 'zod';
import { idSchema } from './ids.ts';
import { planformSchema } from './planform.ts';
import { stampShape } from './stamp.ts';
import { lengthsSchema } from './style.ts';
import { daySchema, labelSchema, momentSchema, textSchema } from './fields.ts';

export const reedStateSchema = z.enum(['blank', 'scraping', 'playing', 'resting', 'practice', 'retired']);

/** Why a reed ended. */
export const retirementSchema = z.strictObject({
  on: daySchema,
  cause: z.enum([
    'worn out',
    'chipped',
    'cracked',
    'mould',
    'lost',
    'given away',
    'kept as an example',
    'never good',
  ]),
  lesson: textSchema.optional(),
});

/** One double reed, from the tied blank to its retirement. */
export const reedSchema = z.strictObject({
  kind: z.literal('reed'),
  ...stampShape,
  label: labelSchema.describe('Unique, never reused: it stands on the thread.'),
  ownNumber: z.string().max(40).optional(),
  styleId: z.string().min(1).max(80),
  state: reedStateSchema,
  lotId: idSchema.optional(),
  pieceId: idSchema.optional(),
  shapeId: idSchema.optional(),
  tiedOn: daySchema.optional(),
  staple: z
    .strictObject({
      name: z.string().max(80).optional(),
      lengthMm: z.number().min(30).max(60).optional(),
      boreClass: z.string().max(40).optional(),
    })
    .optional(),
  tie: z
    .strictObject({
      threadColour: z.string().max(40).optional(),
      overallMm: z.number().min(50).max(100).optional(),
      threadMm: z.number().min(20).max(90).optional(),
      overlap: z.string().max(80).optional(),
      leaks: z.enum(['tight', 'leaks', 'not tried']).optional(),
      markOfA: z.string().max(80).optional(),
      wireMm: z.number().min(0).max(30).optional(),
    })
    .optional(),
  planform: planformSchema.optional(),
  lengths: lengthsSchema
    .optional()
    .describe("This reed's own lengths, for a blade with the overall length forOverallLengthMm."),
  forOverallLengthMm: z.number().min(40).max(100).optional(),
  favourite: z
    .strictObject({ passIndex: z.int().min(0).max(999), since: momentSchema })
    .optional()
    .describe('Kept as the example to follow, as it was at this pass.'),
  targetId: idSchema
    .optional()
    .describe(
      'The target that this reed is brought to; absent while it follows the newest favourite of its style.',
    ),
  purpose: z.string().max(120).optional(),
  slot: z.int().min(1).max(60).optional(),
  tags: z.array(z.string().trim().min(1).max(40)).max(40),
  retirement: retirementSchema.optional(),
  note: textSchema.optional(),
});
export type Reed = z.infer<typeof reedSchema>;
