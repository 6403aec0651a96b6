import { rowTitle, type Figure, type FigureTable } from '../../src/figures/figure.ts';
import { UNIT_WORDS, writtenFigure, type FigureText, type NumberFormat } from '../../src/words/format.ts';

/** One cell: a figure with its doubt, a plain text, or the reason why there is none. */
export type FigureCell = FigureText | string | { readonly none: string };

export interface FigureRow {
  readonly title: string;
  readonly cells: readonly FigureCell[];
  /** Whose figures stand in the cells and what they are, where they stand in a record. */
  readonly names?: readonly string[];
  /** The row of the place that the answer points out. */
  readonly marked?: boolean;
  /** Something odd stands in it: a lozenge, and this sentence. */
  readonly odd?: string;
}

/** A name that no two figures share: whose it is, and what. */
export const figureName = ({ of, id }: Pick<Figure, 'of' | 'id'>): string => `${of}: ${id}`;

/** A table of the record as it is printed. */
export function laidOut({ caption, head, columns, rows }: FigureTable, writing: NumberFormat) {
  const unit = UNIT_WORDS[writing.unit];
  const cell = (figure: Figure, column: number): FigureCell => {
    const text = writtenFigure(figure, writing);
    return columns[column]?.brief && typeof text === 'object' && 'value' in text ? text.value : text;
  };
  return {
    caption: caption(unit),
    heads: [typeof head === 'string' ? head : head(unit), ...columns.map((column) => column.head)],
    rows: rows.map(({ title, figures, marked }): FigureRow => ({
      title: rowTitle({ title }, writing),
      cells: figures.map(cell),
      names: figures.map(figureName),
      ...(marked && { marked }),
    })),
  };
}
