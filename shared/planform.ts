import * as z from 'zod';

/** Outline of a blade: its width at distances from the cork end, straight lines between. Fixed to the cane. */
export const planformSchema = z.strictObject({
  widths: z
    .array(z.strictObject({ fromCorkMm: z.number().min(0).max(100), widthMm: z.number().positive().max(12) }))
    .min(2)
    .max(200)
    .refine(
      (widths) => widths.every(({ fromCorkMm }, i) => i === 0 || fromCorkMm > widths[i - 1]!.fromCorkMm),
      {
        error: 'distances from the cork end must rise',
      },
    ),
});
export type Planform = z.infer<typeof planformSchema>;
