import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { holdLowest } from '../../../src/gauge-lines/hold-lowest.ts';
import { readingsOfSample, readLine } from '../../../src/gauge-lines/line-format.ts';
import { lineSplitter } from '../../../src/gauge-lines/line-splitter.ts';

describe('cutting a stream into lines', () => {
  it('gives the same lines however the chunks fall', () => {
    const lines = ['+000.552', 'CH1 0,46 mm', '01A-0.02'];
    fc.assert(
      fc.property(
        fc.constantFrom('\r', '\n', '\r\n'),
        fc.array(fc.nat(40), { maxLength: 12 }),
        (end, cuts) => {
          const text = lines.map((line) => line + end).join('');
          const places = [0, ...cuts.sort((a, b) => a - b), text.length];
          const split = lineSplitter();
          const got = places.slice(1).flatMap((to, i) => split(text.slice(places[i], to)));
          expect(got).toEqual(lines);
        },
      ),
    );
  });

  it('drops a line that will not end, and takes the next', () => {
    const split = lineSplitter();
    expect(split('x'.repeat(10_000))).toEqual([]);
    expect(split('y\r0.46\r')).toEqual(['0.46']);
  });
});

describe('a line format taught from a sample', () => {
  it.each([
    ['+000.552', 0.552],
    ['01A+000.552', 0.552],
    ['CH1 0,46 mm', 0.46],
    ['0.0181 in', 0.0181 * 25.4],
    ['  46', 0.46],
    ['T 21.5 D 0.470', 0.47],
    ['-0.46', 0.46],
  ])('reads %s as %d mm at the first guess', (line, expected) => {
    const [first] = readingsOfSample(line);
    expect(first?.thicknessMm).toBeCloseTo(expected, 9);
    expect(readLine(line, first!.format)).toBeCloseTo(expected, 6);
  });

  it('offers thousandths beside hundredths for a whole number, inches beside mm for one with its point', () => {
    expect(readingsOfSample('460').map(({ format }) => format.mmPerUnit)).toEqual([0.001, 0.01]);
    expect(readingsOfSample('0.018').map(({ format }) => format.mmPerUnit)).toEqual([1, 25.4]);
  });

  it('passes over garbage, half lines and messages', () => {
    const { format } = readingsOfSample('01A+000.552')[0]!;
    for (const line of [
      '0.552',
      '01A+000',
      'ERR 3',
      '\u0000\u0001',
      '01A+000.552 LOW',
      '01A+999.552',
      '01A+000,552',
    ]) {
      expect(readLine(line, format)).toBeUndefined();
    }
  });

  it('has no reading for a line without a number', () => {
    expect(readingsOfSample('ready')).toEqual([]);
  });

  it('never throws on what a port may send', () => {
    const { format } = readingsOfSample('CH1 0.46 mm')[0]!;
    fc.assert(
      fc.property(fc.string(), (line) => {
        const mm = readLine(line, format);
        expect(mm === undefined || Math.abs(mm) <= 2).toBe(true);
        readingsOfSample(line);
      }),
    );
  });
});

describe('holding the lowest stable value', () => {
  const play = (values: readonly number[], everyMs = 100) => {
    const hold = holdLowest();
    return values.map((mm, i) => hold({ mm, atMs: i * everyMs })).at(-1)!;
  };

  it('holds nothing while the value swings', () => {
    expect(play([0.5, 0.46, 0.52, 0.45, 0.5, 0.46])).toEqual({ stands: 0 });
  });

  it('takes the lowest of several stands, not the lowest value passed through', () => {
    const held = play([0.5, 0.5, 0.5, 0.5, 0.42, 0.47, 0.47, 0.47, 0.47, 0.6, 0.49, 0.49, 0.49, 0.49]);
    expect(held).toEqual({ lowestMm: 0.47, stands: 3 });
  });

  it('does not take a gauge at rest for a reading', () => {
    expect(play([0, 0, 0, 0, 0, 0]).lowestMm).toBeUndefined();
  });

  it('is never below every sample, and never rises', () => {
    fc.assert(
      fc.property(fc.array(fc.integer({ min: 30, max: 60 }), { minLength: 1, maxLength: 60 }), (counts) => {
        const hold = holdLowest();
        let before = Infinity;
        counts.forEach((count, i) => {
          const { lowestMm } = hold({ mm: count / 100, atMs: i * 100 });
          if (lowestMm === undefined) return;
          expect(lowestMm).toBeGreaterThanOrEqual(Math.min(...counts) / 100);
          expect(lowestMm).toBeLessThanOrEqual(before);
          before = lowestMm;
        });
      }),
    );
  });
});
