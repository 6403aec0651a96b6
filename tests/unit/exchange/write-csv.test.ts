import * as fc from 'fast-check';
import { parse } from 'csv-parse/sync';
import { describe, expect, it } from 'vitest';
import { shielded, unshielded } from '../../../src/exchange/csv/own-text.ts';
import type { ReedDraft } from '../../../src/exchange/csv/drafts.ts';
import { csvParts } from '../../../src/exchange/csv/in-parts.ts';
import { longForm, writeLongCsv } from '../../../src/exchange/csv/write-csv.ts';
import { sheetForm, writeSheetCsv } from '../../../src/exchange/csv/write-sheet.ts';
import { readText, understood } from './csv-samples.ts';
import { AWKWARD, reedDrafts } from './drafts-arbitrary.ts';

const decimals = fc.constantFrom('point' as const, 'comma' as const);
const withBreaksOf = (text: string) => text.replace(/\r\n?/g, '\n');

describe('written reed by reed', () => {
  it('is the same text as all at once, and holds one reed at a time', async () => {
    await fc.assert(
      fc.asyncProperty(reedDrafts, decimals, async (reeds, decimal) => {
        async function* all() {
          yield* reeds;
        }
        const textOf = async (parts: AsyncIterable<string>) => {
          let text = '';
          for await (const part of parts) text += part;
          return text;
        };
        expect(await textOf(csvParts(longForm, all, decimal))).toBe(writeLongCsv(reeds, decimal));
        expect(await textOf(csvParts(sheetForm, all, decimal))).toBe(writeSheetCsv(reeds, decimal));
      }),
      { numRuns: 50 },
    );
    const held: string[] = [];
    async function* watched() {
      for (const label of ['K-1', 'K-2']) {
        held.push(`read ${label}`);
        yield { label, passes: [] };
      }
    }
    for await (const part of csvParts(longForm, watched, 'point')) held.push(`written ${part.length > 0}`);
    expect(held.slice(2)).toEqual(['written true', 'read K-1', 'written false', 'read K-2', 'written false']);
  });
});

describe('long form', () => {
  it('gives the same bytes when it is read and written again', async () => {
    await fc.assert(
      fc.asyncProperty(reedDrafts, decimals, async (reeds, decimal) => {
        const written = writeLongCsv(reeds, decimal);
        expect(writeLongCsv(understood(await readText(written)).reeds, decimal)).toBe(written);
      }),
      { numRuns: 150 },
    );
  });

  it('loses nothing: what is read equals what was written, line breaks and the order of passes aside', async () => {
    await fc.assert(
      fc.asyncProperty(reedDrafts, decimals, async (reeds, decimal) => {
        const read = understood(await readText(writeLongCsv(reeds, decimal))).reeds;
        const plain = JSON.parse(
          withBreaksOf(
            JSON.stringify(reeds)
              .replaceAll(String.raw`\r\n`, String.raw`\n`)
              .replaceAll(String.raw`\r`, String.raw`\n`),
          ),
          positiveZero,
        ) as ReedDraft[];
        const sorted = plain.map((reed) => ({
          ...reed,
          passes: [...reed.passes].sort((a, b) => a.index - b.index),
        }));
        expect(read).toEqual(sorted);
      }),
      { numRuns: 150 },
    );
  });

  it('writes a maker’s own columns back', async () => {
    const text =
      'reed,pass,overall_length_mm,state,blade,from_tip_mm,across,thickness_mm,lamp,mood\r\nK-1,0,70.2,wet,A,5,0,0.43,on,"good, better"\r\nK-1,0,70.2,wet,B,5,0,0.42,,\r\n';
    expect(writeLongCsv(understood(await readText(text)).reeds, 'point')).toBe(text);
  });

  it('is read alike by an independent parser', () => {
    fc.assert(
      fc.property(reedDrafts, (reeds) => {
        // It throws where quoting breaks RFC 4180 or a row is longer or shorter than the first.
        const rows: string[][] = parse(writeLongCsv(reeds, 'comma'), { delimiter: ';', bom: true });
        const readings = reeds.flatMap(({ passes }) => passes.flatMap((pass) => pass.readings));
        const column = rows[0]!.indexOf('thickness_mm');
        const written = rows.slice(1).flatMap((row) => row[column] || []);
        const given = readings.flatMap(({ thicknessMm }) => thicknessMm ?? []);
        // Passes are written in order, whatever their order here.
        expect(written.map((cell) => Number(cell.replace(',', '.'))).sort()).toEqual(given.sort());
      }),
      { numRuns: 50 },
    );
  });
});

describe('sheet', () => {
  it('gives the same bytes when it is read and written again', async () => {
    await fc.assert(
      fc.asyncProperty(reedDrafts, decimals, async (reeds, decimal) => {
        const sound = reeds.some(({ passes }) =>
          passes.some(({ readings }) => readings.some(({ thicknessMm }) => thicknessMm !== undefined)),
        );
        fc.pre(sound);
        const written = writeSheetCsv(reeds, decimal);
        expect(writeSheetCsv(understood(await readText(written)).reeds, decimal)).toBe(written);
      }),
      { numRuns: 150 },
    );
  });

  it('is read alike by an independent parser', () => {
    fc.assert(
      fc.property(reedDrafts, (reeds) => {
        const rows: string[][] = parse(writeSheetCsv(reeds, 'point'), { bom: true });
        const readings = reeds.flatMap(({ passes }) => passes.flatMap((pass) => pass.readings));
        expect(rows.length).toBeGreaterThan(0);
        expect(new Set(rows.map(({ length }) => length)).size).toBe(1);
        const cells = rows.flat().filter((cell) => /^\d+(\.\d+)?$/.test(cell)).length;
        expect(cells).toBeGreaterThanOrEqual(
          readings.filter(({ thicknessMm }) => thicknessMm !== undefined).length,
        );
      }),
      { numRuns: 50 },
    );
  });

  it('lays a pass out as makers do', () => {
    const reading = (blade: 'A' | 'B', fromTipMm: number, across: number, thicknessMm: number) =>
      ({ blade, fromTipMm, across, thicknessMm, repeat: 0, flag: 'ok', role: 'station' }) as const;
    const readings = [
      reading('A', 1, -0.5, 0.1),
      reading('A', 1, 0.5, 0.11),
      reading('A', 0.5, 0.5, 0.06),
      { ...reading('B', 1, 0, 0.1), flag: 'weak' as const },
    ];
    expect(
      writeSheetCsv([{ label: 'K-1', passes: [{ index: 2, wetness: 'wet', readings }] }], 'comma').split(
        '\r\n',
      ),
    ).toEqual([
      'reed;K-1;',
      'pass;2;',
      'state;wet;',
      'unit;mm;',
      ';;',
      'Blade A;;',
      'mm from tip;-0,5;0,5',
      '0,5;;0,06',
      '1;0,1;0,11',
      ';;',
      'Blade B;;',
      'mm from tip;0;',
      '1;0,1 weak;',
      ';;',
      '',
    ]);
  });
});

describe('texts that a spreadsheet would run', () => {
  // The list of OWASP's page on CSV injection, from memory, and their full-width forms.
  const dangerous = /^['\s]*[=+\-@＝＋－＠\t\r\n]/;

  it.each(AWKWARD)('%j keeps its meaning and begins harmlessly', (text) => {
    const written = shielded(text);
    expect(unshielded(written)).toBe(withBreaksOf(text));
    if (dangerous.test(text) && !/^[+-]?\d+([.,]\d+)?$/.test(text))
      expect(written).toBe(`'${withBreaksOf(text).replace(/([\t\n])(?==)/g, "$1'")}`);
    else expect(written).toBe(withBreaksOf(text));
  });

  const marks = [
    '=',
    '+',
    '-',
    '@',
    '\uff1d',
    ';',
    ',',
    '|',
    '\t',
    '\n',
    "'",
    '"',
    ' ',
    '1',
    '0.5',
    'a',
    '\u200b',
    '\u202e',
    '\ufeff',
  ];
  const nasty = fc.array(fc.constantFrom(...marks), { maxLength: 9 }).map((parts) => parts.join(''));

  it('undoes itself for texts made of nothing but marks', () => {
    fc.assert(
      fc.property(nasty, (text) => {
        expect(unshielded(shielded(text))).toBe(withBreaksOf(text));
      }),
      { numRuns: 3000, seed: 3 },
    );
  });

  it('becomes no formula in a spreadsheet that parts cells by another mark, whatever stands before the sign', () => {
    fc.assert(
      fc.property(nasty, (text) => {
        for (const mark of [';', ',', '|', '\t', '\n'])
          for (const cell of shielded(text).split(mark)) {
            const seen = cell.replace(/^[\s"\u200b\u202e\ufeff]+/u, '');
            const isNumber = /^[+-]?\d+([.,]\d+)?$/.test(seen.trim());
            if (!isNumber) expect(seen, JSON.stringify(text)).not.toMatch(/^[=+\-@\uff1d]/);
          }
      }),
      { numRuns: 3000, seed: 4 },
    );
  });

  it('undoes itself for every text', () => {
    fc.assert(
      fc.property(
        fc.oneof(fc.string(), fc.constantFrom(...AWKWARD)),
        (text) => unshielded(shielded(text)) === withBreaksOf(text),
      ),
    );
  });
});

function positiveZero(_: string, value: unknown): unknown {
  return value === 0 ? 0 : value;
}
