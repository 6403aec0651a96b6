import Papa from 'papaparse';

/**
 * Cells of a block copied from a spreadsheet: tabs before semicolons before commas; one line break at the end is no
 * row. A decimal comma is kept where tabs or semicolons part the cells.
 */
export function pastedCells(text: string): string[][] {
  const delimiter = text.includes('\t') ? '\t' : text.includes(';') ? ';' : ',';
  const { data } = Papa.parse<string[]>(text.replace(/\r?\n$/, ''), { delimiter });
  return data.map((row) => row.map((cell) => cell.trim()));
}
