import * as z from 'zod';
import { bladesSchema, remedySchema } from './remedy.ts';
import { idSchema } from './ids.ts';
import { readingSchema } from './reading.ts';
import { stampShape } from './stamp.ts';
import { labelSchema, momentSchema, overallLengthMmSchema, textSchema } from './fields.ts';

export const MAX_READINGS = 5000;

export const wetnessSchema = z.enum(['dry', 'damp', 'wet']).describe('How wet the cane was: it swells.');

/** Where the knife went, in the maker's words. */
export const strokesSchema = z.strictObject({
  zone: z
    .string()
    .trim()
    .min(1)
    .max(60)
    .describe("Name of a zone of the reed's style, or the maker's own word."),
  blade: bladesSchema,
  side: z.enum(['left', 'right', 'both']),
  fromTipMm: z.number().min(0).max(60).optional(),
  strokes: z.int().min(0).max(1000).optional(),
});
export type Strokes = z.infer<typeof strokesSchema>;

/** What was done with the knife before the readings of a pass. */
export const scrapeSchema = z.strictObject({
  knife: labelSchema.optional(),
  minutes: z.number().min(0).max(1440).optional().describe('Time with the knife, minutes.'),
  wetness: wetnessSchema.optional(),
  places: z.array(strokesSchema).max(60),
  accident: z.enum(['dig', 'tear', 'chip', 'crack']).optional(),
});

const zeroMmSchema = z
  .number()
  .min(-1)
  .max(1)
  .describe('What the gauge showed with nothing between its tips, mm: positive where it reads too thick.');

/** What a place read before something else came to stand there. */
export const replacedSchema = z.strictObject({
  at: momentSchema.describe('When it was given up.'),
  how: z.enum(['round', 'sheet']).describe('Read again in the round, or mended in the sheet.'),
  deviceId: idSchema.optional().describe('Where it was mended.'),
  was: z.array(readingSchema).min(1).max(50).describe('Readings of one place.'),
});
export type Replaced = z.infer<typeof replacedSchema>;

/** One go with the knife and the readings taken after it; pass 0 is the blank or the first measuring. */
export const passSchema = z.strictObject({
  kind: z.literal('pass'),
  ...stampShape,
  reedId: idSchema,
  index: z.int().min(0).max(999).describe('Order within the reed, from 0.'),
  takenAt: momentSchema.optional(),
  overallLengthMm: overallLengthMmSchema.optional(),
  clipMm: z.number().min(0).max(5).optional().describe('Cut from the tip since the pass before, mm.'),
  wetness: wetnessSchema.optional(),
  soakMin: z.number().min(0).max(1e4).optional().describe('Soaking before the readings, minutes.'),
  threadMm: z
    .number()
    .min(20)
    .max(90)
    .optional()
    .describe("Height of the thread's top above the cork end, mm."),
  threadMoved: z.boolean().optional().describe('The thread was rewound: heights above it start anew.'),
  gaugeId: idSchema.optional(),
  gaugeStepMm: z.number().positive().max(0.1).optional().describe('Smallest step of the display, mm.'),
  zeroBeforeMm: zeroMmSchema.optional(),
  zeroAfterMm: zeroMmSchema.optional(),
  openingMm: z.number().min(0).max(10).optional().describe('Between the blades at the tip, mm.'),
  temperatureC: z.number().min(-40).max(60).optional().describe('Of the air, degrees Celsius.'),
  humidityPct: z.number().min(0).max(100).optional().describe('Relative humidity of the air, per cent.'),
  scrape: scrapeSchema.optional(),
  remedies: z
    .array(remedySchema)
    .max(200)
    .describe('Remedies for faults that the maker accepted, in the order in which they apply.'),
  readBy: z
    .array(labelSchema)
    .min(1)
    .max(40)
    .optional()
    .describe('Who read it: own names in the shared case of a class or workshop.'),
  note: textSchema.optional(),
  replaced: z
    .array(replacedSchema)
    .max(1000)
    .optional()
    .describe('Readings that no longer count, in the order in which they were given up.'),
  readings: z.array(readingSchema).max(MAX_READINGS),
});
export type Pass = z.infer<typeof passSchema>;

/** What is known of a pass besides its readings. */
export type PassFacts = Omit<Pass, 'readings'>;

/** A pass as a library's index has it; its readings come with the reed that is looked at. */
export type PassHead = PassFacts & {
  /** Readings of a thickness: stations without cane, or skipped, are not counted. */
  readonly readingCount: number;
  /** Seconds from the first reading to the last; absent where none or one tells its second. */
  readonly readingSeconds?: number;
};

/** Seconds from the first of some readings to the last; undefined where fewer than two tell their second. */
export function secondsOf({ readings }: Pick<Pass, 'readings'>): number | undefined {
  const seconds = readings.flatMap((reading) => reading.seconds ?? []);
  return seconds.length > 1 ? Math.max(...seconds) - Math.min(...seconds) : undefined;
}

/** How many readings of a pass have a thickness. */
export const thicknessCount = ({ readings }: Pick<Pass, 'readings'>) =>
  readings.filter(({ thicknessMm }) => thicknessMm !== undefined).length;

export function passHead({ readings, ...head }: Pass): PassHead {
  const seconds = secondsOf({ readings });
  return {
    ...head,
    readingCount: thicknessCount({ readings }),
    ...(seconds !== undefined && { readingSeconds: seconds }),
  };
}
