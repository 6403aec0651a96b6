import type { Place } from '../../../shared/blade.ts';
import { FormatError } from '../../../shared/errors.ts';
import { lineProblem, type FileProblem } from '../file-problem.ts';
import { decodeText } from '../text.ts';
import type { Column } from './columns.ts';
import { headingRow, longForm } from './long-form.ts';
import { decideWriting } from './questions.ts';
import { MAX_CSV_BYTES } from './read-file.ts';
import { readRow } from './read-rows.ts';
import { decideDelimiter, splitTable } from './table.ts';

const POINT_COLUMNS: readonly Column[] = ['blade', 'from_tip_mm', 'across'];

/**
 * Reads places on a blade from CSV with the columns blade, from_tip_mm and across, one a row.
 *
 * @throws FormatError listing every problem with its place.
 */
export async function readPoints(name: string, bytes: Uint8Array): Promise<Place[]> {
  const text = decodeText(bytes, MAX_CSV_BYTES);
  const delimiter = decideDelimiter(text, (rows) => headingRow(rows, {}) >= 0);
  const table = await splitTable(text, delimiter, () => Promise.resolve());
  const form = longForm(table, Math.max(0, headingRow(table, {})), {}, POINT_COLUMNS);
  const writing = decideWriting(name, form, delimiter, { label: name });
  if ('about' in writing) throw new FormatError([lineProblem(table[0]!.line, writing.sentence)]);
  const problems: FileProblem[] = [...form.problems];
  const places = form.rows.flatMap((row) => readRow(row, writing, name, problems)?.reading ?? []);
  if (problems.length > 0) throw new FormatError(problems);
  return places.map(({ blade, fromTipMm, across }) => ({ blade, fromTipMm, across }));
}
