import type { Fault } from '../../faults/fault.ts';
import type { Figure, FigureTable } from '../../figures/figure.ts';
import { listed } from '../../words/figure-words.ts';
import type { FiguredReed } from '../fitted-reed.ts';

/** What is asked of a pass, by the fault that its answer would settle. An increase widens nothing: it is read again. */
const ASKED: Readonly<Record<Exclude<Fault['kind'], 'increase'>, string>> = {
  zero: 'had the gauge’s zero moved?',
  drift: 'had the gauge’s zero crept?',
  swelling: 'was the cane wetter or drier?',
  swapped: 'were A and B written for each other?',
  mirrored: 'were left and right written for each other?',
  clip: 'was a clip not entered?',
  shifted: 'did the stop slip?',
  digits: 'is a reading a slip?',
};

/** The questions about some passes that are not settled, by their places; absent where there are none. */
export function questionOpen({ found }: FiguredReed, passes: readonly number[]): string | undefined {
  const kinds = passes.flatMap((pass) => found?.[pass]?.faults.map(({ kind }) => kind) ?? []);
  const asked = [...new Set(kinds)].flatMap((kind) => (kind === 'increase' ? [] : [ASKED[kind]]));
  return asked.length === 0 ? undefined : listed(asked);
}

/** A table whose doubts cover the answers to an open question: each figure has it, and the caption says it once. */
export function withQuestion(table: FigureTable, open: string | undefined): FigureTable {
  const isWidened = ({ u }: Figure) => u !== undefined;
  if (open === undefined || !table.rows.some(({ figures }) => figures.some(isWidened))) return table;
  return {
    ...table,
    caption: (unit) => `${table.caption(unit)} ± covers both answers while it is asked: ${open}`,
    rows: table.rows.map((row) => ({
      ...row,
      figures: row.figures.map((figure) => (isWidened(figure) ? { ...figure, open } : figure)),
    })),
  };
}
