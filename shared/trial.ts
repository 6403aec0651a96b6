import * as z from 'zod';
import { idSchema } from './ids.ts';
import { stampShape } from './stamp.ts';
import { momentSchema, textSchema } from './fields.ts';

/** A maker's own scale. */
export const scaleSchema = z.int().min(1).max(5);

/** One playing of a reed, tied to the pass that it followed. */
export const trialSchema = z.strictObject({
  kind: z.literal('trial'),
  ...stampShape,
  reedId: idSchema,
  afterPass: z.int().min(0).max(999).optional(),
  playedAt: momentSchema,
  crow: z
    .strictObject({
      lowestNote: z.string().max(8).optional(),
      cents: z.number().min(-200).max(200).optional(),
      octaves: z.int().min(0).max(4).optional(),
      rattle: z.enum(['none', 'some', 'much']).optional(),
      from: z.enum(['ear', 'microphone']).optional().describe('Heard by ear unless it says otherwise.'),
      hz: z
        .number()
        .positive()
        .max(5000)
        .optional()
        .describe(
          'Frequency of the lowest note, its standard uncertainty, and how far it wandered: one standard deviation.',
        ),
      uCents: z.number().min(0).max(1200).optional(),
      wanderCents: z.number().min(0).max(1200).optional(),
      octaveBalanceDb: z
        .number()
        .min(-120)
        .max(120)
        .optional()
        .describe('Level of the octave over the lowest note less the level of that note, dB.'),
    })
    .optional(),
  peep: z
    .strictObject({
      note: z.string().max(8).optional(),
      cents: z.number().min(-200).max(200).optional(),
      steadiness: scaleSchema.optional(),
    })
    .optional()
    .describe('The reed alone, lips at the edge of its tip.'),
  /** Sounding pitch less the tempered one at the maker's A. */
  pitchCents: z
    .array(z.strictObject({ note: z.string().max(8), cents: z.number().min(-200).max(200) }))
    .max(40),
  response: scaleSchema.optional().describe('Of the reed as a whole: 1 late, 5 at once.'),
  lowD: scaleSchema.optional().describe('The softest attack on one note: 1 late, 5 at once.'),
  lowBFlat: scaleSchema.optional(),
  middleG: scaleSchema.optional(),
  resistance: scaleSchema.optional(),
  stability: scaleSchema.optional(),
  dark: scaleSchema.optional(),
  full: scaleSchema.optional(),
  openingMm: z.number().min(0).max(10).optional(),
  highestNote: z.string().max(8).optional().describe('The highest note that speaks.'),
  after15Cents: z
    .number()
    .min(-200)
    .max(200)
    .optional()
    .describe(
      'Change of pitch after fifteen minutes of playing, cents; opening and resistance as they are then.',
    ),
  after15OpeningMm: z.number().min(0).max(10).optional(),
  after15Resistance: scaleSchema.optional(),
  minutes: z.number().min(0).max(1440).optional(),
  place: z.string().max(120).optional(),
  temperatureC: z.number().min(-40).max(60).optional(),
  humidityPct: z.number().min(0).max(100).optional(),
  elevationM: z.number().min(-500).max(9000).optional(),
  verdict: z.enum(['concert', 'rehearsal', 'practice', 'not yet', 'no']).optional(),
  words: textSchema.optional(),
});
export type Trial = z.infer<typeof trialSchema>;
