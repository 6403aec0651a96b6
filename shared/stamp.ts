import * as z from 'zod';
import { idSchema } from './ids.ts';
import { momentSchema } from './fields.ts';

/** The version of every stored document's shape. Raised by a migration, never lowered. */
export const FORMAT_VERSION = 1;

/**
 * For each writer, the number of its latest write that is in this version of the document (a version vector). A writer
 * is a device from one opening of its library to the next; numbers count all writes of a device, so they leap. One version replaces another only when it has
 * seen everything the other has; otherwise the two disagree and both are kept. Clocks never decide.
 */
export const versionsSchema = z.record(idSchema, z.int().min(1));
export type Versions = z.infer<typeof versionsSchema>;

/**
 * Which write each field of a document is owed to, so that edits of different fields on two devices do not disagree.
 * Absent while the document is as it was made: then every field is owed to the writes in `versions`.
 */
export const editsSchema = z.strictObject({
  /** Of fields that are not named. */
  base: versionsSchema,
  fields: z.record(z.string().max(80), versionsSchema),
});
export type Edits = z.infer<typeof editsSchema>;

/** What every stored document carries. A deleted document keeps its content and gets `deletedAt`. */
export const stampShape = {
  formatVersion: z.literal(FORMAT_VERSION),
  id: idSchema,
  versions: versionsSchema,
  createdAt: momentSchema,
  updatedAt: momentSchema,
  deletedAt: momentSchema.optional(),
  edits: editsSchema.optional(),
  invented: z
    .literal(true)
    .optional()
    .describe('Marks invented example data, so that it can be told and cleared away.'),
};
export interface Stamp {
  formatVersion: typeof FORMAT_VERSION;
  id: string;
  versions: Versions;
  createdAt: string;
  updatedAt: string;
  deletedAt?: string | undefined;
  edits?: Edits | undefined;
  invented?: true | undefined;
}
