import * as z from 'zod';
import { stationSchema } from './grid.ts';
import { idSchema } from './ids.ts';
import { passSchema } from './pass.ts';
import { flagSchema } from './reading.ts';
import { stampShape, versionsSchema } from './stamp.ts';
import { labelSchema, momentSchema, textSchema, thicknessMmSchema } from './fields.ts';

/** What a short round is to answer: every zone, the blend, blade against blade and side against side, or a plan's places. */
export const QUESTIONS = ['zones', 'blend', 'balance', 'plan'] as const;
export type Question = (typeof QUESTIONS)[number];

/** A pass being read: which stations are asked for, in which order. Its readings are acts in a log until it closes. */
export const roundSchema = z.strictObject({
  kind: z.literal('round'),
  ...stampShape,
  reedId: idSchema,
  passIndex: z.int().min(0).max(999),
  plan: labelSchema,
  stations: z.array(stationSchema).min(1).max(800).describe('In the order in which they are read.'),
  short: z
    .strictObject({ question: z.enum(QUESTIONS), doubtMm: z.number().positive().max(1) })
    .optional()
    .describe(
      'Stations are read only until the answer is known to this, mm, as half of a 95 % interval; absent where all are.',
    ),
  /** What is known of the pass besides its readings. */
  about: passSchema
    .omit({ kind: true, id: true, versions: true, formatVersion: true, createdAt: true, updatedAt: true })
    .omit({
      deletedAt: true,
      edits: true,
      invented: true,
      reedId: true,
      index: true,
      readings: true,
      remedies: true,
      replaced: true,
      readBy: true,
    })
    .partial(),
  startedAt: momentSchema,
  closedAs: idSchema.optional().describe('The pass that the finished round became.'),
  closedWith: versionsSchema
    .optional()
    .describe(
      'For each writer, the count of its last act that was decided on when the round was finished, or later.',
    ),
});
export type Round = z.infer<typeof roundSchema>;

const actShape = {
  id: idSchema,
  roundId: idSchema,
  deviceId: idSchema,
  seq: z
    .int()
    .min(1)
    .describe('Counts acts, on from all that were known when it was done; order never depends on a clock.'),
  at: momentSchema,
  step: idSchema
    .optional()
    .describe(
      'Acts with the same step were one thing to the maker, such as a pasted block, and are taken back together.',
    ),
};

/** One thing done during a round. The log is only ever added to; what a round holds is the fold of its acts. */
export const actSchema = z.discriminatedUnion('act', [
  z.strictObject({
    act: z.literal('taken'),
    ...actShape,
    station: stationSchema,
    thicknessMm: thicknessMmSchema,
    flag: flagSchema,
    method: z.string().max(40).optional(),
    seconds: z.number().min(0).max(1e6).optional(),
    by: labelSchema
      .optional()
      .describe('Who read it: the own name in the shared case of a class or workshop.'),
    replaces: idSchema
      .optional()
      .describe(
        'An earlier reading of the same place that this one stands in for; absent for a repeat that is kept beside it.',
      ),
  }),
  z.strictObject({
    act: z.literal('skipped'),
    ...actShape,
    station: stationSchema,
    reason: z.enum(['no-cane', 'wire', 'out of reach', 'later']),
  }),
  z.strictObject({ act: z.literal('flagged'), ...actShape, of: idSchema, flag: flagSchema }),
  /** Takes back an act; taking back a withdrawal is how it is done again. */
  z.strictObject({ act: z.literal('withdrawn'), ...actShape, of: idSchema }),
  z.strictObject({ act: z.literal('noted'), ...actShape, text: textSchema }),
]);
export type Act = z.infer<typeof actSchema>;
