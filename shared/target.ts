import * as z from 'zod';
import { idSchema } from './ids.ts';
import { stampShape } from './stamp.ts';
import { labelSchema, thicknessMmSchema } from './fields.ts';

/** A reed as it was at a pass. */
const exampleSchema = z.strictObject({ reedId: idSchema, passIndex: z.int().min(0).max(999) });
export type Example = z.infer<typeof exampleSchema>;

/** How a target is made. It is made anew from the readings each time: no surface is stored. */
export const recipeSchema = z.discriminatedUnion('from', [
  /** One favourite, or the mean of several with their spread. */
  z.strictObject({ from: z.literal('reeds'), examples: z.array(exampleSchema).min(1).max(40) }),
  /** The tip of one and the back of another, going over within `overMm` around `atMm` from the tip. */
  z.strictObject({
    from: z.literal('tip-and-back'),
    tip: exampleSchema,
    back: exampleSchema,
    atMm: z.number().min(0).max(40),
    overMm: z.number().positive().max(20),
  }),
  /** Zone means set by hand; inside a zone the shape is the style's usual one. */
  z.strictObject({
    from: z.literal('zones'),
    zones: z
      .array(z.strictObject({ name: z.string().min(1).max(31), meanMm: thicknessMmSchema }))
      .min(1)
      .max(30),
  }),
  /** What is usual for the style: common practice, no source. */
  z.strictObject({ from: z.literal('style') }),
]);
export type Recipe = z.infer<typeof recipeSchema>;

/** What a reed is being brought to. */
export const targetSchema = z.strictObject({
  kind: z.literal('target'),
  ...stampShape,
  name: labelSchema,
  styleId: z.string().min(1).max(80),
  recipe: recipeSchema,
  placing: z
    .enum(['tip', 'lengths'])
    .describe(
      'Places are compared at equal distance from the tip, or with the ends of tip, heart and scrape laid on each other.',
    ),
});
export type TargetDocument = z.infer<typeof targetSchema>;
