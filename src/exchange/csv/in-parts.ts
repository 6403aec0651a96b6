import type { ReedDraft } from './drafts.ts';
import type { DecimalSign } from './number-text.ts';

/** A form of file that is written reed by reed, once it is known of all reeds what its rows need. */
export interface CsvForm<L> {
  readonly start: L;
  /** What the rows need with one reed more. */
  readonly with: (layout: L, reed: ReedDraft) => L;
  readonly head: (layout: L, decimal: DecimalSign) => string;
  readonly rows: (reed: ReedDraft, layout: L, decimal: DecimalSign) => string;
}

/** Some reeds in one text. */
export function csvOf<L>(form: CsvForm<L>, reeds: readonly ReedDraft[], decimal: DecimalSign): string {
  const layout = reeds.reduce(form.with, form.start);
  return form.head(layout, decimal) + reeds.map((reed) => form.rows(reed, layout, decimal)).join('');
}

/** The same text reed by reed: no more than one is in memory. @param reeds Gives them all, twice. */
export async function* csvParts<L>(
  form: CsvForm<L>,
  reeds: () => AsyncIterable<ReedDraft>,
  decimal: DecimalSign,
): AsyncGenerator<string> {
  let layout = form.start;
  for await (const reed of reeds()) layout = form.with(layout, reed);
  yield form.head(layout, decimal);
  for await (const reed of reeds()) yield form.rows(reed, layout, decimal);
}
