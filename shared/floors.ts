import * as z from 'zod';
import { stampShape } from './stamp.ts';
import { floorTableSchema } from './style.ts';

/** The maker's own floors for a style, in the place of those that the style starts with. */
export const floorsSchema = z.strictObject({
  kind: z.literal('floors'),
  ...stampShape,
  styleId: z.string().min(1).max(80),
  floors: floorTableSchema,
});
export type Floors = z.infer<typeof floorsSchema>;
