import { describe, expect, it } from 'vitest';
import { readingsOfLines, readingsOfSample, readLine } from '../../../src/gauge-lines/line-format.ts';

const INCH = 25.4;

/**
 * Forms in which measuring instruments send a value as text: sign, zeros before it, unit before or behind it, channel or
 * address, judgement of tolerance. From memory of public interface descriptions; no maker's form is named.
 */
const FORMS: readonly (readonly [line: string, mm: number])[] = [
  ['0.450', 0.45],
  ['+0.450', 0.45],
  ['-0.450', 0.45],
  ['- 0.450', 0.45],
  ['+000.450', 0.45],
  ['+00000.450', 0.45],
  ['0,450', 0.45],
  ['+0,45', 0.45],
  ['.450', 0.45],
  ['+.450', 0.45],
  [',450', 0.45],
  ['.0177', 0.0177],
  ['+.0177 in', 0.0177 * INCH],
  ['0.0177in', 0.0177 * INCH],
  ['0.01770 inch', 0.0177 * INCH],
  ['0.0177"', 0.0177 * INCH],
  ['0.450 mm', 0.45],
  ['0.450mm', 0.45],
  ['0,450 mm', 0.45],
  ['0.450,mm', 0.45],
  ['0.450;mm', 0.45],
  ['450 um', 0.45],
  ['450 \u00b5m', 0.45],
  ['450.2 \u03bcm', 0.4502],
  ['MM+000.450', 0.45],
  ['IN+0.0177', 0.0177 * INCH],
  ['mm 0.450', 0.45],
  ['1,0.450,mm', 0.45],
  ['01,+0.450', 0.45],
  ['01A+000.450', 0.45],
  ['CH1 0,450 mm', 0.45],
  ['CH2: +0.450 mm', 0.45],
  ['D1=0.450', 0.45],
  ['A;0,450;mm', 0.45],
  ['X 0.450 mm', 0.45],
  ['T 21.5 D 0.450', 0.45],
  ['0.450 mm OK', 0.45],
  ['0.450 GO', 0.45],
  ['45', 0.45],
  ['  45  ', 0.45],
];

describe('forms of a line', () => {
  it.each(FORMS)('%s', (line, mm) => {
    const offers = readingsOfSample(line.trim());
    const meant = offers.find(({ thicknessMm }) => Math.abs(thicknessMm - mm) < 1e-9);
    expect(meant, 'is among what is offered').toBeDefined();
    expect(offers.indexOf(meant!), 'is one of the first two').toBeLessThan(2);
    expect(readLine(line.trim(), meant!.format)).toBeCloseTo(mm, 6);
  });

  it('are thirty at least', () => expect(FORMS.length).toBeGreaterThanOrEqual(30));
});

describe('lines of a gauge that is moved', () => {
  it('take the number that changes for the reading, and the one that stays for a channel', () => {
    const [first] = readingsOfLines(['3 0.450', '3 0.461', '3 0.470']);
    expect(first!.thicknessMm).toBeCloseTo(0.47, 9);
    const [other] = readingsOfLines(['0.451 0.100', '0.460 0.100', '0.470 0.100']);
    expect(other!.thicknessMm).toBeCloseTo(0.47, 9);
  });

  it('leave the judgement of tolerance open where it changes, and still refuse an error', () => {
    const [first] = readingsOfLines(['0.450 OK', '0.461 +NG', '0.470 OK', '0.430 -NG']);
    const { format } = first!;
    expect(readLine('0.444 -NG', format)).toBeCloseTo(0.444, 9);
    expect(readLine('0.444 OK', format)).toBeCloseTo(0.444, 9);
    expect(readLine('0.444', format)).toBeCloseTo(0.444, 9);
    expect(readLine('0.444 ERR', format)).toBeUndefined();
    expect(readLine('CH2 0.444 OK', format)).toBeUndefined();
  });

  it('keep a unit behind a comma in the shape, so that half a line is no reading', () => {
    const [first] = readingsOfLines(['2,+0.450,mm OK', '2,+0.461,mm NG', '2,+0.470,mm OK']);
    expect(readLine('2,+0.498,mm NG', first!.format)).toBeCloseTo(0.498, 9);
    expect(readLine('2,+0.4', first!.format)).toBeUndefined();
  });

  it('are not misled by garbage, halves and messages among them', () => {
    const [first] = readingsOfLines([
      'ready',
      '01A+0',
      '01A+000.450',
      '\u0007x',
      '01A+000.461',
      'E 3',
      '01A+000.470',
    ]);
    expect(first!.thicknessMm).toBeCloseTo(0.47, 9);
    expect(readLine('E 3', first!.format)).toBeUndefined();
    expect(readingsOfLines(['ready', 'set'])).toEqual([]);
  });
});
