import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { readCsv } from '../../../src/exchange/csv/read-csv.ts';
import { problemsOf, questionsOf, readText, understood } from './csv-samples.ts';

const samples = new URL('../../samples/', import.meta.url);
const file = (name: string) => ({ name, bytes: new Uint8Array(readFileSync(new URL(name, samples))) });
const HEAD = 'reed,pass,overall_length_mm,state,blade,from_tip_mm,across,thickness_mm';

describe('sample files', () => {
  const names = ['passes', 'scenario'].flatMap((folder) =>
    readdirSync(new URL(folder, samples))
      .filter((name) => name.endsWith('.csv'))
      .map((name) => `${folder}/${name}`),
  );
  it.each(names)('%s is understood without a question', async (name) => {
    const { reeds, understood: summary } = understood(await readCsv([file(name)]));
    expect(reeds).toHaveLength(1);
    expect(summary).toMatchObject({ unit: 'mm', blades: 2 });
  });

  it('reads a maker’s own sheet and says what it understood', async () => {
    const { reeds, understood: summary } = understood(await readCsv([file('scenario/k-117-sheet.csv')]));
    expect(summary.sentence).toBe('Two blades, 14 rows, decimal commas, 138 readings, 2 missing.');
    expect(reeds[0]).toMatchObject({
      label: 'K-117',
      passes: [{ index: 0, overallLengthMm: 70.2, wetness: 'wet' }],
    });
  });

  it('finds the same readings in the sheet and in the long form of one reed', async () => {
    const [sheet, long] = await Promise.all(
      ['scenario/k-117-sheet.csv', 'scenario/k-117.csv'].map((name) =>
        readCsv([file(name)]).then(understood),
      ),
    );
    const all = long!.reeds[0]!.passes[0]!.readings;
    const blank = all.filter(
      ({ blade, fromTipMm, across }) => blade === 'B' && fromTipMm === 18 && Math.abs(across) === 0.8,
    );
    expect(sheet!.reeds[0]!.passes[0]!.readings).toEqual(all.filter((reading) => !blank.includes(reading)));
  });

  it('joins files about one reed by its label and its passes', async () => {
    const files = ['scenario/m-142.csv', 'scenario/m-142-controls.csv'].map(file);
    const { reeds } = understood(await readCsv(files));
    expect(reeds.map(({ label, passes }) => [label, passes.length])).toEqual([['M-142', 4]]);
    expect(reeds[0]!.passes[2]).toMatchObject({ overallLengthMm: 70.5, soakMin: 9, threadMm: 47 });
    expect(reeds[0]!.passes[2]!.readings.filter(({ role }) => role === 'control')).toHaveLength(2);
  });

  it('refuses two files that read the same stations, naming both places', async () => {
    const outcome = await readCsv(['scenario/m-142.csv', 'scenario/m-142-swapped.csv'].map(file));
    expect(problemsOf(outcome)[0]).toBe(
      'scenario/m-142-swapped.csv, line 2: Blade A at 0.5 mm, across -0.8, is read a second time; the first is line 2 of ' +
        'scenario/m-142.csv. Take one out, or tell them apart in a column named repeat.',
    );
  });
});

describe('files that cannot be taken in', () => {
  const row = (thickness: string, fromTip = '5') => `K-1,0,70.2,wet,A,${fromTip},0,${thickness}`;
  it.each([
    ['an empty file', '', 'file: The file is empty. Choose one that holds readings.'],
    ['blank lines', ' \n\n', 'file: The file is empty. Choose one that holds readings.'],
    ['blank cells', ';;\n; ;', 'line 1: Every cell is blank. Choose a file with readings.'],
    ['headings alone', HEAD, 'file: There is no reading in it. Choose a file with readings.'],
    [
      'text among numbers',
      [HEAD, row('0.4'), row('thick', '6')].join('\n'),
      "line 3, column thickness_mm: 'thick' stands here; expected was a number with a decimal point, a thickness of more than 0 and up to 2 mm. Correct it, name the unit in the heading if it is another, or clear the cell where nothing was read.",
    ],
    [
      'a thickness of 4.3 mm',
      [HEAD, row('0.4'), row('4.3', '6')].join('\n'),
      "line 3, column thickness_mm: '4.3' stands here; expected was a thickness of more than 0 and up to 2 mm. Correct it, name the unit in the heading if it is another, or clear the cell where nothing was read.",
    ],
    [
      '43 under a heading that says mm',
      [HEAD, row('43'), row('0.44', '6')].join('\r\n'),
      "line 2, column thickness_mm: '43' stands here; expected was a thickness of more than 0 and up to 2 mm. Correct it, name the unit in the heading if it is another, or clear the cell where nothing was read.",
    ],
    [
      'a station read twice',
      [HEAD, row('0.4'), row('0.41', '5.0')].join('\n'),
      'line 3: Blade A at 5.0 mm, across 0, is read a second time; the first is line 2. Take one out, or tell them apart in a column named repeat.',
    ],
    [
      'a repeat counted twice',
      [`${HEAD},repeat`, `${row('0.4')},1`, `${row('0.41')},1`].join('\n'),
      'line 3: Blade A at 5 mm, across 0, is read a second time; the first is line 2. Give each reading its own repeat number.',
    ],
    [
      'a length that changes within a pass',
      [HEAD, row('0.4'), row('0.41', '6').replace('70.2', '70.9')].join('\n'),
      "line 3, column overall_length_mm: '70.9' stands here; expected was 70.2, as line 2 says for the same pass. Make them agree, or number the passes apart.",
    ],
    [
      'an open quotation mark',
      [HEAD, '"K-1,0'].join('\n'),
      'line 2: A quotation mark is opened or closed in the wrong place. Put it right, or double it inside a quoted cell.',
    ],
    [
      'a heading twice',
      `${HEAD},across\n${row('0.4')},0`,
      "line 1: The heading 'across' stands for a column that is already there. Give each column its own heading.",
    ],
    [
      'a cell without a heading',
      `${HEAD}\n${row('0.4')},x`,
      "line 2: 'x' in cell 9 has no heading over it. Give the column a heading, or clear the cell.",
    ],
    [
      'a heading that programs trip over',
      `${HEAD},__proto__\n${row('0.4')},x`,
      "line 1: The heading '__proto__' cannot be kept. Give it another name.",
    ],
    [
      'a blank label',
      [HEAD, row('0.4').replace('K-1', '')].join('\n'),
      'line 2, column reed: nothing stands here; expected was a label of 1 to 80 characters. Correct it, or clear the cell.',
    ],
  ])('%s is refused with its place', async (_, text, sentence) => {
    expect(problemsOf(await readText(text))).toEqual([sentence]);
  });

  it('refuses a picture', async () => {
    const bytes = new Uint8Array([
      0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a, 0, 0, 0, 13, 0x49, 0x48, 0x44, 0x52,
    ]);
    expect(problemsOf(await readCsv([{ name: 'reed.png', bytes }]))).toEqual([
      'file: The file is not text: a control character stands in line 2. Save it as CSV or JSON.',
    ]);
  });

  it('refuses what is larger than a sheet can be', async () => {
    expect(problemsOf(await readText('x'.repeat(2_000_001)))[0]).toContain('more than 2.0 MB');
    expect(problemsOf(await readText('\n1'.repeat(60_000)))[0]).toContain('more than 50000 rows');
    expect(problemsOf(await readText(`${HEAD}\n${','.repeat(500)}1`))[0]).toContain('more than 120 cells');
    expect(problemsOf(await readText(`${HEAD}\n${'K'.repeat(500)}`))[0]).toContain(
      'more than 410 characters',
    );
  });

  it('names every bad cell once, up to a number that can be read', async () => {
    const rows = Array.from({ length: 80 }, (_, i) => `K-1,0,70.2,wet,A,${i / 2},0,thick`);
    const problems = problemsOf(await readText([HEAD, ...rows].join('\n')));
    expect(problems).toHaveLength(51);
    expect(problems[50]).toBe('further on: There are 30 more problems. Put these right first.');
  });
});

describe('what a file leaves open', () => {
  const sheet = (rows: string[]) => ['K-1', 'Blade A', 'mm from tip;-0,5;0;0,5', ...rows].join('\n');

  it('takes fractions for millimetres and large whole numbers for hundredths', async () => {
    const mm = understood(await readText(sheet(['1;0,1;0,12;0,1', '5;0,33;0,4;0,31'])));
    expect(mm.understood.unit).toBe('mm');
    const hundredths = understood(await readText(sheet(['1;10;12;10', '5;33;40;31'])));
    expect(hundredths.understood.sentence).toBe('One blade, 2 rows, decimal commas, hundredths, 6 readings.');
    expect(hundredths.reeds).toEqual(mm.reeds);
  });

  it('asks whether small whole numbers are hundredths or thousandths', async () => {
    const text = sheet(['1;4;5;4', '5;13;16;12']);
    expect(questionsOf(await readText(text))).toMatchObject([
      { about: 'unit', options: ['hundredths', 'thou'] },
    ]);
    const answered = understood(await readText(text, { unit: 'thou' }));
    expect(answered.reeds[0]!.passes[0]!.readings[4]!.thicknessMm).toBe(0.4064);
  });

  it('takes the unit that a heading, a line or the cells name', async () => {
    for (const text of [
      sheet(['1;4;5;4']).replace('Blade', 'unit;thou\nBlade'),
      sheet(['1;4 thou;5 thou;4 thou']),
      'reed,blade,from_tip_mm,across,thickness (thou)\nK-1,A,1,-0.5,4\nK-1,A,1,0,5\nK-1,A,1,0.5,4',
    ]) {
      const { reeds } = understood(await readText(text));
      expect(reeds[0]!.passes[0]!.readings.map(({ thicknessMm }) => thicknessMm)).toEqual([
        0.1016, 0.127, 0.1016,
      ]);
    }
  });

  it('asks what 1.234 is where nothing else shows the decimal sign', async () => {
    const text = 'reed;blade;from_tip_mm;across;thickness_mm\nK-1;A;5;0;1.234';
    expect(questionsOf(await readText(text))).toEqual([
      {
        about: 'decimal',
        file: 'try.csv',
        options: ['point', 'comma'],
        example: '1.234',
        sentence:
          "Is '1.234' a little over one, or over a thousand? Say whether the file has decimal points or decimal commas.",
      },
    ]);
    expect(
      understood(await readText(text, { decimal: 'point' })).reeds[0]!.passes[0]!.readings[0]!.thicknessMm,
    ).toBe(1.234);
    expect(problemsOf(await readText(text, { decimal: 'comma' }))[0]).toContain("'1.234' stands here");
    expect(understood(await readText(`${text}\nK-1;A;6;0;0.43`)).understood.decimal).toBe('point');
  });

  it('asks which columns are which, and takes the answer', async () => {
    const text = 'Rohr;Seite;Abstand;Ort;Dicke;Notiz\nK-1;A;5;0;0,43;hart\nK-1;B;5;0;0,42;';
    const [question] = questionsOf(await readText(text));
    expect(question).toMatchObject({
      about: 'columns',
      lacking: ['blade', 'from_tip_mm', 'across', 'thickness_mm'],
    });
    const columns = {
      reed: 'Rohr',
      blade: 'Seite',
      from_tip_mm: 'Abstand',
      across: 'Ort',
      thickness_mm: 'Dicke',
    };
    const { reeds, files } = understood(await readText(text, { columns }));
    expect(reeds[0]!.passes[0]!.readings[0]).toEqual({
      ...{ blade: 'A', fromTipMm: 5, across: 0, thicknessMm: 0.43, repeat: 0, flag: 'ok', role: 'station' },
      extra: { Notiz: 'hart' },
    });
    const other = understood(await readText(text.replace('K-1', 'K-2'), { columns }));
    expect(other.files[0]!.shape).toBe(files[0]!.shape);
  });

  it('asks for the label of a file that names no reed', async () => {
    const text = 'blade,from_tip_mm,across,thickness_mm\nA,5,0,0.43';
    expect(questionsOf(await readText(text))).toMatchObject([{ about: 'label' }]);
    expect(understood(await readText(text, { label: 'K-9' })).reeds[0]!.label).toBe('K-9');
  });
});

describe('numbers as people write them', () => {
  it.each([
    ['comma', ',', '0.43'],
    ['semicolon and comma', ';', '0,43'],
    ['tab and comma', '\t', '0,43'],
    ['tab and point', '\t', '0.43'],
    ['comma inside quotation marks', ',', '"0,43"'],
    ['trailing unit', ';', '0,43 mm'],
    ['no-break space before the unit', ';', '0,43\u00a0mm'],
    ['narrow no-break space', ';', '0,43\u202f'],
    ['no figure before the sign', ';', ',43'],
  ])('%s', async (_, delimiter, thickness) => {
    const rows = [
      ['reed', 'blade', 'from_tip_mm', 'across', 'thickness_mm'],
      ['K-1', 'A', '5', '\u22121', thickness],
    ];
    const outcome = await readText(`\ufeff${rows.map((row) => row.join(delimiter)).join('\r\n')}\r\n`);
    expect(understood(outcome).reeds[0]!.passes[0]!.readings[0]).toMatchObject({
      across: -1,
      thicknessMm: 0.43,
    });
  });

  it('reads a file in UTF-16 and one in Windows-1252', async () => {
    const text = `${HEAD},where\nK-1,0,70.2,wet,A,5,0,0.4,Käfer`;
    const utf16 = new Uint8Array(2 + 2 * text.length);
    utf16.set([0xff, 0xfe]);
    for (let i = 0; i < text.length; i++) utf16[2 + 2 * i] = text.charCodeAt(i);
    const latin = Uint8Array.from(text, (char) => char.charCodeAt(0));
    for (const bytes of [utf16, latin]) {
      const { reeds } = understood(await readCsv([{ name: 'x', bytes }]));
      expect(reeds[0]!.passes[0]!.readings[0]!.extra).toEqual({ where: 'Käfer' });
    }
  });
});

describe('long work', () => {
  const rows = Array.from({ length: 4900 }, (_, i) => `K-1,0,70.2,wet,A,${i / 100},0,0.4`);
  const bytes = new TextEncoder().encode([HEAD, ...rows].join('\n'));

  it('tells how far it is, never backwards, to the end', async () => {
    const fractions: number[] = [];
    await readCsv([{ name: 'long.csv', bytes }], { progress: (fraction) => fractions.push(fraction) });
    expect(fractions).toEqual([...fractions].sort((a, b) => a - b));
    expect(fractions.at(-1)).toBe(1);
    expect(fractions.length).toBeGreaterThan(4);
  });

  it('stops when it is told to', async () => {
    const control = new AbortController();
    const work = readCsv([{ name: 'long.csv', bytes }], {
      signal: control.signal,
      progress: () => control.abort(),
    });
    await expect(work).rejects.toMatchObject({ name: 'AbortError' });
  });

  it('refuses a sheet of more readings than any file holds', async () => {
    const block = Array.from({ length: 12_000 }, (_, i) => `${i / 500},10,12,14,12,10`);
    const text = ['K-1', 'Blade A', 'mm from tip,-0.8,-0.4,0,0.4,0.8', ...block].join('\n');
    expect(problemsOf(await readText(text))).toEqual([
      expect.stringMatching(/^line 100\d\d: The file has more than 50000 readings/),
    ]);
  });

  it('refuses more readings than a pass can hold', async () => {
    const more = Array.from({ length: 200 }, (_, i) => `K-1,0,70.2,wet,B,${i / 10},0,0.4`);
    expect(problemsOf(await readText([HEAD, ...rows, ...more].join('\n')))[0]).toContain(
      'more than 5000 readings',
    );
  });
});

describe('labels with more than can be seen', () => {
  // A right-to-left override: on screen it is K-1.
  const text = [HEAD, 'K-1,0,70.2,wet,A,5,0,0.43', 'K-1,0,70.2,wet,B,5,0,0.42']
    .join('\n')
    .replaceAll('K-1', 'K\u202e-1');

  it('are asked about, and come in as the maker answers', async () => {
    const [question] = questionsOf(await readText(text));
    expect(question).toMatchObject({ about: 'hidden', options: ['leave them out', 'keep them'] });
    expect(question!.sentence).toContain('a mark that turns the direction of writing');
    const labels = async (hidden: 'leave them out' | 'keep them') =>
      understood(await readText(text, { hidden })).reeds.map(({ label }) => label);
    expect(await labels('leave them out')).toEqual(['K-1']);
    expect(await labels('keep them')).toEqual(['K\u202e-1']);
  });
});
