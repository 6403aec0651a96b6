import * as z from 'zod';
import { stampShape } from './stamp.ts';
import { thicknessUnitSchema } from './units.ts';

/** The maker's own choices; one document a library. */
export const settingsSchema = z.strictObject({
  kind: z.literal('settings'),
  ...stampShape,
  unit: thicknessUnitSchema,
  decimal: z.enum(['point', 'comma']),
  handedness: z.enum(['right', 'left']),
  pitchHz: z.number().min(400).max(480),
  theme: z.enum(['system', 'day', 'dark', 'lamp']),
  textScale: z.number().min(0.9).max(1.5),
  letterKeys: z.boolean(),
  sounds: z.enum(['off', 'tones', 'speech']),
});
export type Settings = z.infer<typeof settingsSchema>;
