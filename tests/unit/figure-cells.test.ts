import { parse } from 'csv-parse/sync';
import { expect, it } from 'vitest';
import { plainCells } from '../../components/figures-table/copy-cells.ts';
import { figureCells } from '../../components/figures-table/figure-cells.ts';
import { differenceFigure, thicknessFigure } from '../../src/words/format.ts';

/** Reads cells as a spreadsheet with a decimal comma does: what is no number stays text. */
function pasted(text: string): (string | number)[][] {
  const rows = parse(text, { delimiter: '\t' }) as string[][];
  return rows.map((cells) =>
    cells.map((cell) => (/^-?\d+(,\d+)?$/.test(cell) ? Number(cell.replace(',', '.')) : cell)),
  );
}

it('copies a table of figures as plain cells that a spreadsheet reads the same, doubts in columns of their own', () => {
  const writing = { unit: 'hundredths', decimal: 'comma' } as const;
  const rows = [
    {
      title: 'Tip',
      cells: [
        thicknessFigure({ valueMm: 0.1462, uMm: 0.0025 }, writing),
        differenceFigure({ valueMm: 0.021, uMm: 0.003 }, writing),
        'A',
      ],
    },
    {
      title: 'Heart',
      cells: [
        thicknessFigure({ valueMm: 0.477, uMm: 0.003 }, writing),
        // Inside its doubt: brackets on the screen, which would make it negative in a spreadsheet.
        differenceFigure({ valueMm: 0.004, uMm: 0.003 }, writing),
        { none: 'not read' },
      ],
    },
    {
      title: 'Rails',
      cells: [{ none: 'not read' }, differenceFigure({ valueMm: -0.013, uMm: 0.002 }, writing)],
    },
  ];
  const text = plainCells(figureCells(['Zone', 'Mean', 'Taken off', 'Most'], rows));
  expect(pasted(text)).toEqual([
    ['Zone', 'Mean', '±', 'Taken off', '±', 'Most'],
    ['Tip', 14.6, 0.5, 2.1, 0.6, 'A'],
    ['Heart', 47.7, 0.6, 0.4, 0.6, ''],
    ['Rails', '', '', -1.3, 0.4, ''],
  ]);
});
