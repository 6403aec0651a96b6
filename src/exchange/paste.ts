import { cellProblem, lineProblem, quoted, type FileProblem } from './file-problem.ts';
import { decideDecimal, parseNumber, type DecimalSign, type WrittenNumber } from './csv/number-text.ts';
import { decideDelimiter, splitRows, type Delimiter } from './csv/table.ts';

/** What the maker said of a block that left something open. */
export interface PasteAnswers {
  readonly decimal?: DecimalSign;
  /** What a single comma in each line is. */
  readonly comma?: 'decimal' | 'separator';
}

export type PasteOutcome =
  | {
      readonly outcome: 'understood';
      /** Row by row as they stood; undefined where a cell was blank. Rows may differ in length. */
      readonly rows: readonly (readonly (WrittenNumber | undefined)[])[];
      readonly decimal: DecimalSign;
    }
  | {
      readonly outcome: 'asks';
      readonly about: 'decimal' | 'comma';
      readonly example: string;
      readonly sentence: string;
    }
  | { readonly outcome: 'refused'; readonly problems: readonly FileProblem[] };

const MAX_LENGTH = 200_000;
const MAX_ROWS = 400;
const MAX_COLUMNS = 120;

/**
 * Takes apart a block of numbers copied from a spreadsheet: cells between tabs, semicolons or commas, quoted or not,
 * decimal point or comma, blanks for what was not read. Exactly one line break at the end belongs to the copy; empty
 * cells at the beginning and at the end are cells. What the numbers leave open is asked.
 */
export function readPaste(pasted: string, answers: PasteAnswers = {}): PasteOutcome {
  if (pasted.length > MAX_LENGTH)
    return refused([lineProblem(1, 'The block is far larger than a sheet of readings. Copy less.')]);
  const text = pasted.replace(/\r\n?/g, '\n').replace(/\n$/, '');
  const loneCommas = text
    .split('\n')
    .filter((line) => line.trim() !== '')
    .every((line) => /^[^,;\t"]*,[^,;\t"]*$/.test(line));
  const comma = answers.comma ?? (loneCommas ? commaOf(text) : 'separator');
  if (comma === undefined) return { outcome: 'asks', about: 'comma', ...commaQuestion(text) };
  const delimiter = loneCommas && comma === 'decimal' ? ';' : decideDelimiter(text, () => false);
  const cells = text === '' ? [['']] : splitRows(text, delimiter, MAX_ROWS + 1).data;
  const large = cells.length > MAX_ROWS || cells.some(({ length }) => length > MAX_COLUMNS);
  if (large)
    return refused([
      lineProblem(1, `The block has more than ${MAX_ROWS} rows or ${MAX_COLUMNS} columns. Copy less.`),
    ]);
  return numbersOf(cells, delimiter, answers);
}

/** Nothing reads 0, so that a column of 0,43 holds decimals; other lone commas may part two columns. */
function commaOf(text: string): 'decimal' | undefined {
  return text.split('\n').every((line) => line.trim() === '' || /^\s*[+\u2212-]?0?,/.test(line))
    ? 'decimal'
    : undefined;
}

function commaQuestion(text: string) {
  const example = text.trimStart().split('\n')[0]!.trim();
  return { example, sentence: `Is ${quoted(example)} one number with a decimal comma, or two numbers?` };
}

function numbersOf(
  cells: readonly (readonly string[])[],
  delimiter: Delimiter,
  answers: PasteAnswers,
): PasteOutcome {
  const sign = answers.decimal ? { decimal: answers.decimal } : decideDecimal(cells.flat(), delimiter);
  if ('open' in sign) {
    const sentence = `Is ${quoted(sign.open)} a little over one, or over a thousand?`;
    return { outcome: 'asks', about: 'decimal', example: sign.open, sentence };
  }
  const { decimal } = sign;
  const problems: FileProblem[] = [];
  const rows = cells.map((row, i) =>
    row.map((text, j) => {
      if (text.trim() === '') return undefined;
      const number = parseNumber(text, decimal);
      const cell = { text, line: i + 1, column: String(j + 1) };
      if (!number)
        problems.push(
          cellProblem(
            cell,
            `a number with a decimal ${decimal}, or nothing`,
            'Copy the numbers alone, without headings',
          ),
        );
      return number;
    }),
  );
  return problems.length > 0 ? refused(problems) : { outcome: 'understood', rows, decimal };
}

function refused(problems: readonly FileProblem[]): PasteOutcome {
  return { outcome: 'refused', problems };
}
