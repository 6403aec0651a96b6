import * as z from 'zod';
import { FormatError } from '../../shared/errors.ts';
import { MAX_READINGS, passSchema } from '../../shared/pass.ts';
import { readingSchema } from '../../shared/reading.ts';
import { passFactsSchema, reedFactsSchema } from './csv/columns.ts';
import type { ReedDraft } from './csv/drafts.ts';

const MAX_PASSES = 1000;
const { repeat, flag, role } = readingSchema.shape;

/** What is usual of a reading may be left out. */
const plainReading = z.object({
  ...readingSchema.shape,
  repeat: repeat.default(0),
  flag: flag.default('ok'),
  role: role.default('station'),
});

/** As `ReedDraft` says it; what only a library adds is left away. */
const plainReed = z.object({
  ...reedFactsSchema.shape,
  passes: z
    .array(
      z.object({
        ...passFactsSchema.shape,
        openingMm: passSchema.shape.openingMm,
        readings: z.array(plainReading).max(MAX_READINGS),
      }),
    )
    .min(1)
    .max(MAX_PASSES)
    .refine((passes) => new Set(passes.map(({ index }) => index)).size === passes.length, {
      error: 'two passes have the same index',
    }),
});

/**
 * Checks a reed that comes as a plain object, parsed from JSON for example: `label`, and `passes` with `index` and
 * `readings` (`blade`, `fromTipMm`, `across`, `thicknessMm`, in mm as in files).
 *
 * @returns Its passes in their order.
 * @throws FormatError with every problem and its place.
 */
export function parseReed(data: unknown): ReedDraft {
  const result = plainReed.safeParse(data);
  if (!result.success)
    throw new FormatError(
      result.error.issues.map(({ path, message }) => ({ where: path.join('.') || 'reed', what: message })),
      { cause: result.error },
    );
  const { label, passes } = result.data;
  return { label, passes: passes.toSorted((a, b) => a.index - b.index) };
}
