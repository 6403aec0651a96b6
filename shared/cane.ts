import * as z from 'zod';
import { idSchema } from './ids.ts';
import { stampShape } from './stamp.ts';
import { scaleSchema } from './trial.ts';
import { daySchema, labelSchema, textSchema, thicknessMmSchema } from './fields.ts';

/** Outer diameter of a tube of cane. */
export const tubeDiameterMmSchema = z.number().min(6).max(20);

/** What a gauge with two edges and a point midway between them reads on the bark of a tube. */
export const threePointsSchema = z.strictObject({
  feetApartMm: z.number().min(2).max(20),
  heightMm: z.number().positive().max(10),
});

/** Cane bought or cut together. */
export const lotSchema = z.strictObject({
  kind: z.literal('lot'),
  ...stampShape,
  code: z.string().trim().min(1).max(8).describe('The letters that begin the labels of its reeds.'),
  source: z.string().max(120).optional(),
  boughtOn: daySchema.optional(),
  harvestYear: z.int().min(1900).max(2200).optional(),
  grams: z.number().positive().max(1e5).optional(),
  price: z.string().max(40).optional(),
  diameterMinMm: tubeDiameterMmSchema.optional(),
  diameterMaxMm: tubeDiameterMmSchema.optional(),
  pieces: z.int().min(0).max(1e5).optional(),
  colour: z.string().max(80).optional(),
  grain: scaleSchema.optional(),
  bark: scaleSchema.optional(),
  straightness: scaleSchema.optional(),
  hardness: z.strictObject({ value: z.number(), unit: z.string().max(40) }).optional(),
  wallMm: z.number().positive().max(5).optional(),
  note: textSchema.optional(),
});
export type Lot = z.infer<typeof lotSchema>;

/** One reading of gouged cane. */
export const gougeReadingSchema = z.strictObject({
  alongMm: z.number().min(0).max(150).describe('Along the piece from its end, mm.'),
  arcMm: z
    .number()
    .min(-12)
    .max(12)
    .describe(
      'Distance from the middle along the arc of the bark, mm: negative on side 1, positive on side 2.',
    ),
  thicknessMm: thicknessMmSchema,
});
export type GougeReading = z.infer<typeof gougeReadingSchema>;

/** One piece of cane from the tube to the fold: what it was, how it was gouged, and what became of it. */
export const pieceSchema = z.strictObject({
  kind: z.literal('piece'),
  ...stampShape,
  lotId: idSchema,
  number: z.int().min(1).max(1e6),
  tubeDiameterMm: tubeDiameterMmSchema.optional(),
  tubeThreePoints: threePointsSchema
    .optional()
    .describe('Kept as read; the diameter follows from it and goes before one that was typed.'),
  gouger: z.string().max(80).optional(),
  sinceSharpened: z
    .int()
    .min(0)
    .max(1e5)
    .optional()
    .describe('Pieces gouged since the blade was sharpened, this one included.'),
  gougedOn: daySchema.optional(),
  wetness: z.enum(['dry', 'damp', 'wet']).optional(),
  readings: z.array(gougeReadingSchema).max(200),
  fate: z.enum(['kept', 'rejected', 'shaped', 'reed']).optional(),
  reason: z.string().max(200).optional(),
  note: textSchema.optional(),
});
export type Piece = z.infer<typeof pieceSchema>;

/** Outline of a shaper: full widths at distances from the fold, to 0.01 mm. */
export const shapeSchema = z.strictObject({
  kind: z.literal('shape'),
  ...stampShape,
  name: labelSchema,
  widths: z
    .array(z.strictObject({ fromFoldMm: z.number().min(0).max(60), widthMm: z.number().positive().max(12) }))
    .min(2)
    .max(200)
    .refine(
      (widths) => widths.every(({ fromFoldMm }, i) => i === 0 || fromFoldMm > widths[i - 1]!.fromFoldMm),
      {
        error: 'distances from the fold must rise',
      },
    ),
  note: textSchema.optional(),
});
export type Shape = z.infer<typeof shapeSchema>;
