import * as z from 'zod';
import { stampShape } from './stamp.ts';
import { acrossSchema, labelSchema, thicknessMmSchema } from './fields.ts';

/** Which end a boundary keeps its distance from when the tip is clipped. */
export const hangsFromSchema = z.enum(['tip', 'cane']);

/** A corner of a zone's outline, for a blade with the style's own lengths. */
export const outlinePointSchema = z.strictObject({
  fromTipMm: z.number().min(0).max(60),
  across: acrossSchema,
  hangsFrom: hangsFromSchema,
});
export type OutlinePoint = z.infer<typeof outlinePointSchema>;

/** A named region of a scraped blade: one or more closed outlines, the last corner joined to the first. */
export const zoneSchema = z.strictObject({
  name: z
    .string()
    .regex(/^[a-z][a-z-]{0,30}$/)
    .describe('Stable name in files and figures.'),
  title: labelSchema.describe('Word on the screen.'),
  outlines: z.array(z.array(outlinePointSchema).min(3).max(100)).min(1).max(4),
});
export type Zone = z.infer<typeof zoneSchema>;

/** Lengths from the tip edge at the centre line that templates are stretched to. */
export const lengthsSchema = z
  .strictObject({
    tipMm: z.number().positive().max(15),
    heartEndMm: z.number().positive().max(30),
    scrapeEndMm: z.number().positive().max(40),
  })
  .refine(({ tipMm, heartEndMm, scrapeEndMm }) => tipMm < heartEndMm && heartEndMm < scrapeEndMm, {
    error: 'tip, heart and scrape must end one after the other',
  });
export type Lengths = z.infer<typeof lengthsSchema>;

/** Least thickness by place: bilinear between the rows and columns, the same left and right, held at the ends. */
export const floorTableSchema = z
  .strictObject({
    fromTipMm: z.array(z.number().min(0).max(60)).min(1).max(60),
    across: z.array(z.number().min(0).max(1)).min(1).max(20),
    floorMm: z
      .array(z.array(thicknessMmSchema.nullable()))
      .describe('One row per distance, one entry per position across; null where there is no floor.'),
  })
  .refine(
    ({ fromTipMm, across, floorMm }) =>
      floorMm.length === fromTipMm.length && floorMm.every((row) => row.length === across.length),
    { path: ['floorMm'], error: 'must have one row per distance and one entry per position' },
  );
export type FloorTable = z.infer<typeof floorTableSchema>;

/** A way of scraping: its zones, their usual lengths and floors. */
export const styleSchema = z.strictObject({
  kind: z.literal('style'),
  ...stampShape,
  name: labelSchema,
  startingSet: z
    .boolean()
    .describe(
      'True for the sets the bench starts with: common practice, no source, for the maker to change.',
    ),
  lengths: lengthsSchema,
  zones: z.array(zoneSchema).min(1).max(30),
  floors: floorTableSchema,
});
export type Style = z.infer<typeof styleSchema>;
