import * as z from 'zod';
import { stampShape } from './stamp.ts';
import { zoneSchema } from './style.ts';

/** The maker's own zones for a style, in the place of those that the style starts with. */
export const zonesSchema = z.strictObject({
  kind: z.literal('zones'),
  ...stampShape,
  styleId: z.string().min(1).max(80),
  zones: z.array(zoneSchema).min(1).max(30),
});
export type Zones = z.infer<typeof zonesSchema>;
