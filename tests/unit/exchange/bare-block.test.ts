import { describe, expect, it } from 'vitest';
import { blockCells, blockProblem, isBareBlock, offeredBlock } from '../../../src/exchange/csv/bare-block.ts';
import { readCsv } from '../../../src/exchange/csv/read-csv.ts';

const rows = (text: string) => text.split('\n').map((line, i) => ({ line: i + 1, cells: line.split('\t') }));
const file = (text: string) => ({ name: 'pasted', bytes: new TextEncoder().encode(text) });

/** One blade of three rows and three places, by hand. */
const SMALL = '10\t12\t10\n14\t18\t14\n20\t26\t20';

describe('a bare block', () => {
  it('is numbers alone, two lines of them at least', () => {
    expect(isBareBlock(rows(SMALL))).toBe(true);
    expect(isBareBlock(rows('0,10\t0,12\n0,14\t0,18'))).toBe(true);
    expect(isBareBlock(rows(`tip\t\t\n${SMALL}`))).toBe(false);
    expect(isBareBlock(rows('10\t12\t10'))).toBe(false);
  });

  it('is asked about, and never taken by itself', async () => {
    const outcome = await readCsv([file(SMALL)]);
    expect(outcome.outcome).toBe('asks');
    expect(outcome.outcome === 'asks' && outcome.questions[0]!.about).toBe('block');
  });

  it('is read as the maker said that it lies, with decimal commas', async () => {
    const block = {
      ...{ turned: false, distancesFirst: false, blades: 'B' as const },
      fromTipMm: [0.5, 1, 2],
      across: [-0.4, 0, 0.4],
    };
    const answers = { block, label: 'T-1' };
    const outcome = await readCsv([{ ...file('0,10\t0,12\t0,10\n0,14\t0,18\t0,14\n0,20\t\t0,20'), answers }]);
    expect(outcome.outcome).toBe('understood');
    const readings = outcome.outcome === 'understood' ? outcome.reeds[0]!.passes[0]!.readings : [];
    expect(readings.map((one) => [one.blade, one.fromTipMm, one.across, one.thicknessMm])).toEqual([
      ['B', 0.5, -0.4, 0.1],
      ['B', 0.5, 0, 0.12],
      ['B', 0.5, 0.4, 0.1],
      ['B', 1, -0.4, 0.14],
      ['B', 1, 0, 0.18],
      ['B', 1, 0.4, 0.14],
      ['B', 2, -0.4, 0.2],
      ['B', 2, 0.4, 0.2],
    ]);
  });

  it('offers two blades beside each other, under each other, and lines that lie along', () => {
    const wide = rows(Array.from({ length: 14 }, () => Array(10).fill('40').join('\t')).join('\n'));
    expect(offeredBlock(wide)).toMatchObject({
      turned: false,
      blades: 'beside',
      across: [-0.8, -0.4, 0, 0.4, 0.8],
    });
    const tall = rows(Array.from({ length: 28 }, () => Array(5).fill('40').join('\t')).join('\n'));
    expect(offeredBlock(tall)).toMatchObject({ turned: false, blades: 'under' });
    expect(offeredBlock(tall).fromTipMm).toEqual([0.5, 1, 2, 3, 4, 5, 6, 8, 10, 12, 14, 16, 18, 20]);
    const lying = rows(Array.from({ length: 5 }, () => Array(14).fill('40').join('\t')).join('\n'));
    expect(offeredBlock(lying)).toMatchObject({ turned: true, blades: 'A' });
  });

  it('takes distances that stand in the first column for what they are, once a blade', () => {
    const offered = offeredBlock(
      rows('0,5\t10\t11\n1\t12\t13\n2\t14\t15\n0,5\t10\t11\n1\t12\t13\n2\t14\t15'),
    );
    expect(offered).toMatchObject({ distancesFirst: true, blades: 'under', fromTipMm: [0.5, 1, 2] });
    const cells = blockCells(
      rows('0,5\t10\t11\n1\t12\t13\n2\t14\t15\n0,5\t16\t17\n1\t18\t19\n2\t20\t21'),
      offered,
    );
    expect(cells.filter(({ blade }) => blade === 'B').map(({ text }) => text)).toEqual([
      '16',
      '17',
      '18',
      '19',
      '20',
      '21',
    ]);
  });

  it('does not take two lines at one distance, or two columns at one place', () => {
    const offered = offeredBlock(rows(SMALL));
    expect(blockProblem(offered)).toBeUndefined();
    expect(blockProblem({ ...offered, fromTipMm: [1, 1, 2] })).toContain('Two lines');
    expect(blockProblem({ ...offered, fromTipMm: [1, 3, 2] })).toContain('Two lines');
    expect(blockProblem({ ...offered, fromTipMm: [1, NaN, 2] })).toContain('distance');
    expect(blockProblem({ ...offered, across: [0, 0, 0.4] })).toContain('Two columns');
  });
});
