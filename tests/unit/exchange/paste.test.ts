import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { readPaste, type PasteAnswers } from '../../../src/exchange/paste.ts';

function valuesOf(text: string, answers?: PasteAnswers) {
  const outcome = readPaste(text, answers);
  if (outcome.outcome !== 'understood') throw new Error(JSON.stringify(outcome));
  return outcome.rows.map((row) => row.map((number) => number?.value));
}
const none = undefined;

describe('a block from a spreadsheet', () => {
  it.each([
    [
      'tabs and points',
      '0.43\t0.45\n0.41\t0.44\n',
      [
        [0.43, 0.45],
        [0.41, 0.44],
      ],
    ],
    [
      'tabs and decimal commas, CRLF',
      '0,43\t0,45\r\n0,41\t0,44\r\n',
      [
        [0.43, 0.45],
        [0.41, 0.44],
      ],
    ],
    [
      'semicolons',
      '43;45\n41;44',
      [
        [43, 45],
        [41, 44],
      ],
    ],
    [
      'commas',
      '43,45,46\n41,44,47',
      [
        [43, 45, 46],
        [41, 44, 47],
      ],
    ],
    [
      'blanks are missing',
      '43\t\t46\n\t44\t',
      [
        [43, none, 46],
        [none, 44, none],
      ],
    ],
    [
      'a leading empty cell stays',
      '\t43\n41\t42\n',
      [
        [none, 43],
        [41, 42],
      ],
    ],
    ['one final line break belongs to the copy', '43\n44\n', [[43], [44]]],
    ['an empty last cell of one column stays', '43\n44\n\n', [[43], [44], [none]]],
    ['an empty cell alone', '\n', [[none]]],
    ['quoted cells', '"0,43"\t"0,45"\n', [[0.43, 0.45]]],
    ['one column of decimal commas', '0,43\n0,45\n', [[0.43], [0.45]]],
    ['true minus, thin space and unit', '\u22120,8\t0,43\u202fmm\n', [[-0.8, 0.43]]],
    [
      'more columns in one row',
      '43\t44\n45\t46\t47\n',
      [
        [43, 44],
        [45, 46, 47],
      ],
    ],
  ])('%s', (_, text, expected) => {
    expect(valuesOf(text)).toEqual(expected);
  });

  it('asks whether a lone comma parts two numbers', () => {
    const text = '43,45\n44,46\n';
    expect(readPaste(text)).toMatchObject({ outcome: 'asks', about: 'comma', example: '43,45' });
    expect(valuesOf(text, { comma: 'separator' })).toEqual([
      [43, 45],
      [44, 46],
    ]);
    expect(valuesOf(text, { comma: 'decimal' })).toEqual([[43.45], [44.46]]);
  });

  it('asks what 1.234 is', () => {
    expect(readPaste('1.234\t1.235\n')).toMatchObject({
      outcome: 'asks',
      about: 'decimal',
      example: '1.234',
    });
    expect(valuesOf('1.234\t1.235\n', { decimal: 'point' })).toEqual([[1.234, 1.235]]);
  });

  it('names the cell that is no number', () => {
    expect(readPaste('43\t44\n45\theart\n')).toMatchObject({
      outcome: 'refused',
      problems: [{ where: 'line 2, column 2', found: "'heart'" }],
    });
  });

  it('refuses what is far too large', () => {
    expect(readPaste('1\n'.repeat(500)).outcome).toBe('refused');
    expect(readPaste('1\t'.repeat(300)).outcome).toBe('refused');
    expect(readPaste('1'.repeat(300_000)).outcome).toBe('refused');
  });

  it('gives every block of tabs back as it was, in either decimal sign', () => {
    const cell = fc.option(
      fc.integer({ min: 0, max: 200 }).map((whole) => whole / 100),
      { nil: undefined },
    );
    const block = fc
      .integer({ min: 2, max: 6 })
      .chain((width) =>
        fc.array(fc.array(cell, { minLength: width, maxLength: width }), { minLength: 1, maxLength: 8 }),
      );
    fc.assert(
      fc.property(block, fc.constantFrom('.', ','), (rows, sign) => {
        const text =
          rows
            .map((row) => row.map((value) => value?.toFixed(2).replace('.', sign) ?? '').join('\t'))
            .join('\n') + '\n';
        expect(valuesOf(text)).toEqual(rows);
      }),
    );
  });
});
