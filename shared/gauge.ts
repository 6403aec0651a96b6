import * as z from 'zod';
import { stampShape } from './stamp.ts';
import { labelSchema, momentSchema, textSchema, thicknessMmSchema } from './fields.ts';

/** A known thickness (feeler, slip gauge) and what the gauge showed for it. */
export const knownThicknessSchema = z.strictObject({
  nominalMm: thicknessMmSchema,
  nominalUMm: z.number().min(0).max(0.1).describe('Standard uncertainty of the nominal value.'),
  shownMm: z.array(thicknessMmSchema).min(1).max(50),
});

/** Repeated readings of the same stations, from which the gauge's own scatter follows. */
export const repeatStudySchema = z.strictObject({
  takenAt: momentSchema,
  stations: z.array(z.array(thicknessMmSchema).min(2).max(50)).min(1).max(50),
});

/** One check of the gauge: its zero, known thicknesses, or both. */
export const gaugeCheckSchema = z.strictObject({
  takenAt: momentSchema,
  zeroMm: z.number().min(-1).max(1).optional(),
  known: z.array(knownThicknessSchema).max(20),
  note: textSchema.optional(),
});

/** How to find the reading in the lines that a gauge sends; taught from one sample line. */
export const lineFormatSchema = z.strictObject({
  shape: z
    .string()
    .min(1)
    .max(80)
    .describe('The line with every number replaced by # and spaces drawn together.'),
  which: z.int().min(0).max(9).describe('Which of the numbers is the reading, from 0.'),
  decimal: z.enum(['point', 'comma', 'none']),
  mmPerUnit: z
    .number()
    .refine((value) => value !== 0, { error: 'must not be 0' })
    .describe("Millimetres in one of the number's units. Negative where the gauge counts down as it opens."),
});
export type LineFormat = z.infer<typeof lineFormatSchema>;

/** How a gauge is plugged in. */
export const connectionSchema = z.strictObject({
  baudRate: z.int().min(75).max(1_000_000),
  dataBits: z.union([z.literal(7), z.literal(8)]),
  parity: z.enum(['none', 'even', 'odd']),
  stopBits: z.union([z.literal(1), z.literal(2)]),
  ask: z
    .string()
    .min(1)
    .max(20)
    .optional()
    .describe('What asks the gauge for a value, where it does not send by itself.'),
  asks: z
    .enum(['timer', 'key'])
    .optional()
    .describe(
      'When it is asked: again and again, as where this is absent, or when Enter, a pedal or the key that takes is pressed.',
    ),
  sends: z
    .enum(['on-button', 'all-the-time'])
    .describe('A reading when its button is pressed, or a number all the time.'),
  line: lineFormatSchema,
});
export type Connection = z.infer<typeof connectionSchema>;

export const gaugeSchema = z.strictObject({
  kind: z.literal('gauge'),
  ...stampShape,
  name: labelSchema,
  stepMm: z.number().positive().max(0.1).describe('Smallest step of the display.'),
  ballDiameterMm: z.number().min(0.2).max(10).optional().describe('Contact ball or dome.'),
  forceN: z.number().min(0).max(10).optional(),
  tongueMm: z
    .number()
    .min(0)
    .max(3)
    .optional()
    .describe('Thickness of the tongue, where the gauge was zeroed without it.'),
  seatingSdMm: z
    .number()
    .positive()
    .max(0.1)
    .optional()
    .describe('Declared seating scatter of one reading, one standard deviation, resolution included.'),
  placementSdMm: z
    .number()
    .min(0)
    .max(1)
    .optional()
    .describe('Placement error along the blade, one standard deviation.'),
  reversalHandMm: z
    .number()
    .min(-0.2)
    .max(0.2)
    .optional()
    .describe('Hand difference that the gauge itself makes, found by reading with the reed turned.'),
  connection: connectionSchema.optional(),
  checks: z.array(gaugeCheckSchema).max(2000),
  repeatStudies: z.array(repeatStudySchema).max(200),
  note: textSchema.optional(),
});
export type Gauge = z.infer<typeof gaugeSchema>;
