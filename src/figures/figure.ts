import { writtenFigure, type Quantity, type UnitWords, type NumberFormat } from '../words/format.ts';

/** One number about a reed after a pass. Whoever shows it adds nothing but layout. */
export interface Figure {
  /** Whose it is: `M-142, pass 3`. */
  readonly of: string;
  /** The same for the same figure of every reed and pass: `zone.blend.mean`, `crossing.0.30`. */
  readonly id: string;
  /** What kind of number it is: its unit, its digits and its sign follow. */
  readonly quantity: Quantity;
  /** In the quantity's base unit: mm, mm3, 1, Hz, cents, h. Absent where there is none, for the reason in `absent`. */
  readonly value?: number;
  /** Standard uncertainty, in the same unit; absent where it is a reading as it was read, or a limit. */
  readonly u?: number;
  readonly absent?: string;
  /** What belongs beside it: the blade of the zone's largest place. */
  readonly note?: string;
  /** The question, not settled, that widened `u`. */
  readonly open?: string;
}

/** Figures of one place, in the order of the table's columns. */
export interface TableRow {
  readonly name: string;
  /** What the row is about: a thickness where it is one, and words that have a distance in them. */
  readonly title: string | Figure | ((writing: NumberFormat) => string);
  readonly figures: readonly Figure[];
  /** The row of the place that the answer points out. */
  readonly marked?: boolean;
}

export interface TableColumn {
  readonly head: string;
  /** Its doubt is not printed beside it: it is that of the column before, or nearly. */
  readonly brief?: true;
}

/** Figures that are laid out together. */
export interface FigureTable {
  /** Of the table, in a heading. */
  readonly title: string;
  /** What is counted, in which unit, and what ± means. */
  readonly caption: (unit: UnitWords) => string;
  /** Heading over the names of the rows: a word, or the unit of thickness. */
  readonly head: string | ((unit: UnitWords) => string);
  readonly columns: readonly TableColumn[];
  readonly rows: readonly TableRow[];
}

/** What a figure is made of: an estimate, a plain number without a doubt, or the reason why there is none. */
export type FigureSource =
  | { readonly valueMm: number; readonly uMm: number }
  | { readonly value: number; readonly u: number }
  | number
  | string;

export function figureFrom(name: Pick<Figure, 'of' | 'id' | 'quantity'>, source: FigureSource): Figure {
  if (typeof source === 'string') return { ...name, absent: source };
  if (typeof source === 'number') return { ...name, value: source };
  const [value, u] = 'valueMm' in source ? [source.valueMm, source.uMm] : [source.value, source.u];
  return { ...name, value, u };
}

/** What a row is about, as it is printed. */
export function rowTitle({ title }: Pick<TableRow, 'title'>, writing: NumberFormat): string {
  if (typeof title === 'string') return title;
  return typeof title === 'function' ? title(writing) : String(writtenFigure(title, writing));
}
