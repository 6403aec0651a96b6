import { describe, expect, it } from 'vitest';
import { namedUnit } from '../../../src/exchange/csv/columns.ts';
import { sizeProblems } from '../../../src/exchange/csv/file-sizes.ts';
import { offeredBlock, usualRows } from '../../../src/exchange/csv/bare-block.ts';
import { problemsOf, questionsOf, readText, understood } from './csv-samples.ts';

/** A sheet by hand: positions without a word before them, blades named by their letter alone. */
const sheet = (positions: string, ...rows: string[]) =>
  ['K-9;wet;pass 3;hundredths', 'OAL;70,2', 'A', positions, ...rows].join('\n');
const readings = async (text: string) =>
  understood(await readText(text)).reeds[0]!.passes[0]!.readings.map(
    ({ blade, fromTipMm, across, thicknessMm, flag }) => [blade, fromTipMm, across, thicknessMm, flag],
  );

describe('a sheet with positions over its numbers', () => {
  it('is known by fractions in order, to the edges and from either side', async () => {
    const expected = [
      ['A', 5, -1, 0.4, 'ok'],
      ['A', 5, 0, 0.5, 'ok'],
      ['A', 5, 1, 0.42, 'weak'],
    ];
    expect(await readings(sheet(';-1;0;1', '5;40;50;42 weak'))).toEqual(expected);
    expect(await readings(sheet('Across;1;0;-1', '5;42 weak;50;40'))).toEqual(expected.toReversed());
  });

  it('is none where its places are out of order, beyond the edges, or alone', async () => {
    for (const positions of [';-1;1;0', ';0;0;1', ';-1,5;0;1', ';0,5'])
      expect(questionsOf(await readText(sheet(positions, '5;40;50;42')))[0]!.about).toBe('columns');
  });

  it('keeps the label, the state, the number and the unit of its title', async () => {
    const { reeds, understood: said } = understood(await readText(sheet(';-0,4;0', '5;40;50')));
    expect(reeds[0]).toMatchObject({ label: 'K-9', passes: [{ index: 3, wetness: 'wet' }] });
    expect(said).toMatchObject({ unit: 'hundredths', decimal: 'comma', readings: 2, missing: 0 });
  });

  it('counts a place under a position as not read, and refuses a number without one', async () => {
    const { understood: said } = understood(await readText(sheet(';-0,4;0;0,4', '5;40;50', '6;40;;51')));
    expect(said.sentence).toBe('One blade, 2 rows, decimal commas, hundredths, 4 readings, 2 missing.');
    expect(problemsOf(await readText(sheet(';-0,4;0', '5;40;50;42')))).toEqual([
      "line 5: '42' in cell 4 has no position over it. Give the column a position, or clear the cell.",
    ]);
  });
});

describe('what a table leaves open', () => {
  it('is asked for columns where fewer than three headings are known, and none is below the tenth line', async () => {
    const three = 'blade,across,from_tip_mm\nA,0,5';
    expect(questionsOf(await readText(three))[0]).toMatchObject({
      about: 'columns',
      headings: ['blade', 'across', 'from_tip_mm'],
      columns: { blade: 'blade', across: 'across', from_tip_mm: 'from_tip_mm' },
    });
    const about = Array.from({ length: 9 }, (_, i) => `remark ${i}`).join('\n');
    const table = 'reed,blade,from_tip_mm,across,thickness_mm\nK-1,A,5,0,0.45';
    const below = questionsOf(await readText(`${about}\nremark\n${table}`))[0];
    expect(below).toMatchObject({ about: 'columns', headings: ['remark 0'] });
    const asked = await readText(`${about}\n${table}`);
    expect(asked.outcome === 'asks' && asked.questions[0]!.about).not.toBe('columns');
  });

  it('names bad cells, fifty of them at most', async () => {
    const rows = Array.from({ length: 130 }, (_, i) => `K-1,0,70.2,wet,A,${i / 10},0,bad${i}`);
    const problems = problemsOf(
      await readText(
        ['reed,pass,overall_length_mm,state,blade,from_tip_mm,across,thickness_mm', ...rows].join('\n'),
      ),
    );
    expect(problems).toHaveLength(51);
    expect(problems.at(-1)).toBe('further on: There are 80 more problems. Put these right first.');
    expect(problems[0]).toContain('line 2, column thickness_mm');
  });

  it('takes a unit with or without the words before it', () => {
    const texts = [
      'mm',
      'thickness hundredths',
      'all readings are in thou',
      'Unit in 1/100 mm',
      'reading in inches',
    ];
    expect(texts.map(namedUnit)).toEqual(['mm', 'hundredths', 'thou', 'hundredths', undefined]);
  });
});

describe('a block of numbers alone', () => {
  const block = (lines: number, columns: number) =>
    Array.from({ length: lines }, (_, i) => ({ line: i + 1, cells: Array<string>(columns).fill('40') }));

  it('lies along where it is wider than two blades and not longer than they are wide', () => {
    expect([11, 12].map((columns) => offeredBlock(block(11, columns)).turned)).toEqual([false, true]);
    expect(offeredBlock(block(12, 12)).turned).toBe(false);
  });

  it('has one blade under the other from twelve lines each', () => {
    expect([22, 24, 25].map((lines) => offeredBlock(block(lines, 3)).blades)).toEqual(['A', 'under', 'A']);
    expect([6, 7, 10].map((columns) => offeredBlock(block(9, columns)).blades)).toEqual([
      'beside',
      'A',
      'beside',
    ]);
  });

  it('has the rows of a full map, and whole millimetres where it is longer', () => {
    expect(usualRows(14).at(-1)).toBe(20);
    expect(usualRows(15)).toEqual([1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12, 13, 14, 15]);
  });
});

describe('files chosen together', () => {
  it('are told by name which is too large, and all together only where none is', () => {
    const file = (name: string, size: number) => ({ name, size });
    expect(sizeProblems([file('a.csv', 2e6)])).toEqual([]);
    const what = 'The file has 3.0 MB, more than 2.0 MB. Split it.';
    expect(sizeProblems([file('a.csv', 3e6)])).toEqual([{ where: 'file', what }]);
    const ten = Array.from({ length: 10 }, (_, i) => file(`${i}.csv`, 2e6));
    expect(sizeProblems(ten)).toEqual([]);
    const together = 'They have 20.1 MB together, more than 20.0 MB. Choose fewer at a time.';
    expect(sizeProblems([...ten, file('e.csv', 1e5)])).toEqual([{ where: 'files', what: together }]);
    expect(sizeProblems([...ten, file('big.csv', 3e6)])).toEqual([{ where: 'big.csv, file', what }]);
  });
});
