import { NO_FIGURE } from '../../src/words/format.ts';
import { withoutSigns } from './figure-cells.ts';

/** A figure with its doubt, as tables write it: `45.2 ±0.5`, `(+0.4) ±1.0`. */
const FIGURE = /^(\(?[+\u2212-]?\d[\d.,]*\)?)\s*±\s*(\d[\d.,]*)$/;
const NUMBER = /^\(?[+\u2212-]?\d[\d.,]*\)?$/;

/** What an element says: what is typed into it, or its text; words of elements beside each other stay apart. */
function wordsOf(node: Node): string {
  if (node instanceof Text) return node.data;
  if (node instanceof HTMLInputElement) return node.value;
  if (node instanceof HTMLSelectElement) return node.selectedOptions[0]?.textContent ?? '';
  const isWords =
    node instanceof HTMLElement && !node.matches("button, bench-copy, td .said, [aria-hidden='true']");
  return isWords ? Array.from(node.childNodes, (child) => inside(child)).join('') : '';
}

const inside = (node: Node) => (node instanceof Text ? node.data : ` ${wordsOf(node)} `);

const cellText = (cell: HTMLTableCellElement) => {
  const text = wordsOf(cell).replace(/\s+/g, ' ').trim();
  return text === NO_FIGURE ? '' : text;
};

const rowTexts = ({ cells }: HTMLTableRowElement) =>
  Array.from(cells).flatMap((cell) => [cellText(cell), ...new Array<string>(cell.colSpan - 1).fill('')]);

/** One column, or two where it has doubts: those stand beside their figures, headed ±. */
function columnsOf(texts: readonly string[], hasHead: boolean): string[][] {
  const figures = texts.map((text) => FIGURE.exec(text));
  const plain = texts.map((text) => (NUMBER.test(text) ? withoutSigns(text) : text));
  if (figures.every((figure) => !figure)) return plain.map((text) => [text]);
  return figures.map((figure, row) => [
    figure ? withoutSigns(figure[1]!) : plain[row]!,
    figure?.[2] ?? (row === 0 && hasHead ? '±' : ''),
  ]);
}

/** A table of the page as plain cells: numbers as spreadsheets take them, doubts in columns of their own, dashes blank. */
export function tableCells(table: HTMLTableElement): string[][] {
  const rows = Array.from(table.rows, rowTexts);
  const width = Math.max(0, ...rows.map(({ length }) => length));
  const columns = Array.from({ length: width }, (_, column) =>
    columnsOf(
      rows.map((row) => row[column] ?? ''),
      table.tHead !== null,
    ),
  );
  return rows.map((_, row) => columns.flatMap((cells) => cells[row]!));
}
