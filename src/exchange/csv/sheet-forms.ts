import { bareForm, isBareBlock, offeredBlock } from './bare-block.ts';
import type { Form } from './form.ts';
import { longForm } from './long-form.ts';
import type { CsvAnswers, CsvQuestion } from './questions.ts';
import type { Delimiter, TableRow } from './table.ts';
import { hasBlock, wideForm } from './wide-form.ts';

/** A file as its cells, before anything in them is understood. */
export interface Sheet {
  readonly file: string;
  readonly table: readonly TableRow[];
  /** Where the headings of the long form stand, -1 where there are none. */
  readonly headingsAt: number;
  readonly delimiter: Delimiter;
  readonly answers: CsvAnswers;
}

/** A way in which makers lay readings out. */
export interface SheetForm {
  readonly isIn: (sheet: Sheet) => boolean;
  /** What has to be said before a sheet of this form can be read. */
  readonly asks?: (sheet: Sheet) => CsvQuestion | undefined;
  readonly read: (sheet: Sheet) => Form;
}

const wide: SheetForm = {
  isIn: ({ headingsAt, table }) => headingsAt < 0 && hasBlock(table),
  read: ({ table }) => wideForm(table),
};

const bare: SheetForm = {
  isIn: ({ headingsAt, table }) => headingsAt < 0 && isBareBlock(table),
  asks({ file, table, answers }) {
    const sentence = `${table.length} lines of numbers, without headings. Say where each line and column lies on the blade.`;
    return answers.block
      ? undefined
      : { about: 'block', file, rows: table, offered: offeredBlock(table), sentence };
  },
  read: ({ table, delimiter, answers: { block, decimal } }) =>
    bareForm(table, block ?? offeredBlock(table), delimiter, decimal),
};

const long: SheetForm = {
  isIn: () => true,
  read: ({ table, headingsAt, answers }) => longForm(table, Math.max(0, headingsAt), answers.columns ?? {}),
};

/** Every form, the particular before the general; the last takes whatever is left. */
export const SHEET_FORMS: SheetForm[] = [wide, bare, long];

/** The form that a sheet is in. */
export const formOf = (sheet: Sheet): SheetForm => SHEET_FORMS.find(({ isIn }) => isIn(sheet)) ?? long;
