import type { ThicknessUnit } from '../../../shared/units.ts';
import type { Cell, FileProblem } from '../file-problem.ts';
import type { Column } from './columns.ts';

/** One reading as it stands in a file, before any number is read. */
export interface FormRow {
  readonly line: number;
  readonly cells: Readonly<Partial<Record<Column, Cell>>>;
  readonly extra: Readonly<Record<string, string>>;
}

/** A file taken apart by its form (`sheet-forms.ts`). */
export interface Form {
  /** The name of the form. */
  readonly form: string;
  /** How many lines and columns it has, where that tells such files apart. */
  readonly size?: readonly [lines: number, columns: number];
  readonly rows: readonly FormRow[];
  /** Stations of a sheet with nothing in their cell. */
  readonly blanks: number;
  /** The unit that a heading names. */
  readonly unit?: ThicknessUnit;
  /** Whether the file tells repeats of a station apart. */
  readonly hasRepeats: boolean;
  readonly headings: readonly string[];
  /** Which heading was taken for which column. */
  readonly columns: Readonly<Partial<Record<Column, string>>>;
  /** Columns that are needed and not there. */
  readonly lacking: readonly Column[];
  /** Lines that were taken for notes. */
  readonly unread: readonly { readonly line: number; readonly text: string }[];
  readonly problems: readonly FileProblem[];
}
