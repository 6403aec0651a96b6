import * as z from 'zod';
import { acrossSchema, bladeSchema, fromTipMmSchema, labelSchema } from './fields.ts';
import { stampShape } from './stamp.ts';
import { roleSchema } from './reading.ts';

/** A place that a round asks for. */
export const stationSchema = z.strictObject({
  blade: bladeSchema,
  fromTipMm: fromTipMmSchema,
  across: acrossSchema,
  role: roleSchema,
});
export type Station = z.infer<typeof stationSchema>;

/** The way a maker goes over the stations of a grid. */
export const orderSchema = z.enum(['rows', 'rows-turning', 'columns', 'columns-turning', 'as-listed']);
export type Order = z.infer<typeof orderSchema>;

/** A set of stations, in the order in which they are read. */
export const gridSchema = z.strictObject({
  kind: z.literal('grid'),
  ...stampShape,
  name: labelSchema,
  styleId: z.string().max(80).optional(),
  order: orderSchema,
  /** Read A whole and then B, or change blade at each row or column. */
  bladeByBlade: z.boolean(),
  /** Start on the same physical side on both blades: B is then gone over from right to left. */
  sameSideFirst: z.boolean(),
  stations: z.array(stationSchema).min(1).max(800),
});
export type Grid = z.infer<typeof gridSchema>;
