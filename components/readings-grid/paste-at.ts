import { toMm } from '../../src/exchange/csv/thickness-unit.ts';
import { readPaste, type PasteAnswers, type PasteOutcome } from '../../src/exchange/paste.ts';
import type { GaugeCount } from '../../src/round/gauge-count.ts';
import { typedReading } from '../../src/round/typed-reading.ts';
import { readOnce, type Cell, type GridShape, type StationChange } from './grid-cells.ts';

/** What came of a block pasted at a cell: readings, a question, or a sentence why nothing was taken. */
export type Pasted =
  | { readonly kind: 'changes'; readonly changes: readonly StationChange[] }
  | { readonly kind: 'asks'; readonly about: 'decimal' | 'comma'; readonly sentence: string }
  | { readonly kind: 'refused'; readonly why: string };

type Rows = Extract<PasteOutcome, { outcome: 'understood' }>['rows'];

/** Whether a text is more than one number: it goes over several cells. */
export const isBlock = (text: string) => /[\t\n;]/.test(text.trim()) || /\d,.*,/.test(text);

/** Puts a block of numbers onto the stations from a cell on; blanks leave theirs alone. All of it is taken, or nothing. */
export function pasteAt(
  text: string,
  cell: Cell,
  shape: GridShape,
  count: GaugeCount,
  answers: PasteAnswers = {},
): Pasted {
  const outcome = readPaste(text, answers);
  if (outcome.outcome === 'asks') return { kind: 'asks', about: outcome.about, sentence: outcome.sentence };
  if (outcome.outcome === 'refused') {
    const [first] = outcome.problems;
    return { kind: 'refused', why: `Nothing was pasted. In ${first?.where}: ${first?.what}` };
  }
  return changesOf(outcome.rows, cell, shape, count);
}

function changesOf(rows: Rows, { blade, row, column }: Cell, shape: GridShape, count: GaugeCount): Pasted {
  const changes: StationChange[] = [];
  for (const [i, numbers] of rows.entries()) {
    for (const [j, number] of numbers.entries()) {
      if (!number) continue;
      const [fromTipMm, across] = [shape.fromTipMm[row + i], shape.across[column + j]];
      if (fromTipMm === undefined || across === undefined)
        return refusal(
          `${number.value}, line ${i + 1}, column ${j + 1}, lies beyond the grid. Paste it further up or left`,
        );
      const typed =
        number.unit === undefined
          ? typedReading(String(number.value), count)
          : typedReading(`${toMm(number.value, number.unit)} mm`, count);
      if (typed.kind !== 'reading')
        return refusal(
          `Line ${i + 1}, column ${j + 1}: ${typed.kind === 'unclear' ? typed.why.replace(/\.$/, '') : 'nothing'}`,
        );
      changes.push(readOnce(blade, fromTipMm, across, typed.thicknessMm));
    }
  }
  return { kind: 'changes', changes };
}

function refusal(why: string): Pasted {
  return { kind: 'refused', why: `Nothing was pasted. ${why}.` };
}
