import type { ThicknessUnit } from '../../../shared/units.ts';
import type { BlockAnswer } from '../../../shared/settings.ts';
import { hiddenIn, withoutHidden } from '../../words/hidden-characters.ts';
import { quoted } from '../file-problem.ts';
import { COLUMN_NAMES, COLUMNS } from './columns.ts';
import type { Form } from './form.ts';
import type { ColumnChoice } from './long-form.ts';
import { decideDecimal, parseNumber, type DecimalSign } from './number-text.ts';
import type { Delimiter, TableRow } from './table.ts';
import { decideUnit } from './thickness-unit.ts';

/** The maker's answers to the questions that a file raised; they can be kept by the file's `shape`. */
export interface CsvAnswers {
  readonly unit?: ThicknessUnit;
  readonly decimal?: DecimalSign;
  readonly columns?: ColumnChoice;
  /** How numbers without any heading lie on the blades. */
  readonly block?: BlockAnswer;
  /** Label of the reed, for a file that names none. */
  readonly label?: string;
  /** What becomes of characters in labels that cannot be seen. */
  readonly hidden?: (typeof HIDDEN_OPTIONS)[number];
  /** Cells that cannot be read come in as not read; absent where they are to be mended. */
  readonly openCells?: 'not read';
}

const HIDDEN_OPTIONS = ['leave them out', 'keep them'] as const;

/** What a file leaves open. */
export type CsvQuestion = { readonly file: string; readonly sentence: string } & (
  | { readonly about: 'unit'; readonly options: readonly ThicknessUnit[] }
  | { readonly about: 'decimal'; readonly options: readonly DecimalSign[]; readonly example: string }
  | ({ readonly about: 'columns' } & Pick<Form, 'lacking' | 'headings' | 'columns'>)
  | { readonly about: 'label' }
  | { readonly about: 'hidden'; readonly options: typeof HIDDEN_OPTIONS }
  | { readonly about: 'block'; readonly rows: readonly TableRow[]; readonly offered: BlockAnswer }
);

/** How the numbers of a file are written. */
export interface CsvDialect {
  readonly decimal: DecimalSign;
  /** Whether any number shows its decimal sign. */
  readonly decimalSeen: boolean;
  readonly unit: ThicknessUnit;
}

const UNIT_NAMES: Readonly<Record<ThicknessUnit, string>> = {
  mm: 'millimetres',
  hundredths: 'hundredths of a millimetre',
  thou: 'thousandths of an inch',
};

/** How the numbers of a form are written, from the maker's answers and from the file, or the first thing left open. */
export function decideWriting(
  file: string,
  form: Form,
  delimiter: Delimiter,
  answers: CsvAnswers,
): CsvDialect | CsvQuestion {
  const { lacking, headings, columns } = form;
  if (lacking.length > 0)
    return { about: 'columns', file, lacking, headings, columns, sentence: columnsSentence(form) };
  if (!answers.label && form.rows.some(({ cells }) => cells.reed === undefined)) {
    return { about: 'label', file, sentence: 'The file names no reed. Which one is it?' };
  }
  const hidden = answers.hidden ? undefined : hiddenSentence(form, answers.label);
  if (hidden !== undefined) return { about: 'hidden', file, options: HIDDEN_OPTIONS, sentence: hidden };
  const sign = answers.decimal
    ? { decimal: answers.decimal, seen: true }
    : decideDecimal(numberTexts(form), delimiter);
  if ('open' in sign) {
    const sentence = `Is ${quoted(sign.open)} a little over one, or over a thousand? Say whether the file has decimal points or decimal commas.`;
    return { about: 'decimal', file, options: ['point', 'comma'], example: sign.open, sentence };
  }
  const { decimal, seen: decimalSeen } = sign;
  const unit = answers.unit ?? form.unit;
  const decision = unit ? { unit } : decideUnit(bareThicknesses(form, decimal));
  if ('unit' in decision) return { decimal, decimalSeen, unit: decision.unit };
  const options = decision.open;
  const sentence = `Are the thicknesses in ${options.map((option) => UNIT_NAMES[option]).join(' or in ')}? The numbers leave it open; a heading such as thickness_hundredths or thickness_thou would say it.`;
  return { about: 'unit', file, options, sentence };
}

/** Asks about the first label that is not what it looks like. */
function hiddenSentence({ rows }: Form, answered = ''): string | undefined {
  const labels = new Set([answered, ...rows.map(({ cells }) => cells.reed?.text ?? '')]);
  const label = [...labels].find((text) => hiddenIn(text).length > 0);
  if (label === undefined) return undefined;
  return `The label ${quoted(withoutHidden(label))} has more than can be seen: ${hiddenIn(label).join(', ')}. What becomes of characters in labels that cannot be seen?`;
}

function columnsSentence({ lacking, headings }: Form): string {
  const there = headings.map(quoted).join(', ');
  return `No column is headed ${lacking.join(' or ')}; the headings are ${there}. Name the columns so, or say which is which.`;
}

function* numberTexts({ rows }: Form): Generator<string> {
  const columns = COLUMN_NAMES.filter((column) => COLUMNS[column].holds === 'number');
  for (const { cells } of rows) for (const column of columns) if (cells[column]) yield cells[column].text;
}

/** Thicknesses without a unit of their own. */
function bareThicknesses({ rows }: Form, decimal: DecimalSign): number[] {
  return rows.flatMap(({ cells }) => {
    const number = parseNumber(cells.thickness_mm?.text ?? '', decimal);
    return number && number.unit === undefined ? [number.value] : [];
  });
}
