import { readFileSync } from 'node:fs';
import { afterEach, expect, it } from 'vitest';
import { documentSchema } from '../../../shared/library.ts';
import { reedFigures } from '../../../src/answers/record/reed-figures.ts';
import { ZONE_COLUMNS } from '../../../src/answers/record/tables.ts';
import { LONG_SCRAPE } from '../../../src/blade/starting-styles.ts';
import { countedKind } from '../../../src/ledger/document-words.ts';
import { assembleReed } from '../../../src/reed/assemble.ts';
import { readCsv } from '../../../src/exchange/csv/read-csv.ts';
import { SHEET_FORMS } from '../../../src/exchange/csv/sheet-forms.ts';
import { fitReed } from '../../../src/surface/fit-reed.ts';
import { reportReed } from '../../../src/report/reed-report.ts';
import { reportText } from '../../../src/report/report-text.ts';
import { scenarioReed } from '../../scenario-reed.ts';

// What DEVELOPERS.md promises of its recipes: the one row that they ask for is enough.

const { reed, passes } = scenarioReed('K-117');
const printed = (style = LONG_SCRAPE) => reportText([reportReed({ reed, passes, style })]);
const figures = (style = LONG_SCRAPE) => {
  const assembled = assembleReed({ reed, passes, style });
  const model = fitReed(assembled.passes, assembled.options);
  return reedFigures({ benched: { reed, assembled, model }, pass: 0 });
};

it('a zone is a row in a style: tables and report have it', () => {
  const shoulder = {
    name: 'shoulder',
    title: 'Shoulder',
    outlines: [
      [
        { fromTipMm: 16, across: -0.5, hangsFrom: 'tip' as const },
        { fromTipMm: 16, across: 0.5, hangsFrom: 'tip' as const },
        { fromTipMm: 18, across: 0.5, hangsFrom: 'tip' as const },
        { fromTipMm: 18, across: -0.5, hangsFrom: 'tip' as const },
      ],
    ],
  };
  const style = { ...LONG_SCRAPE, zones: [...LONG_SCRAPE.zones, shoulder] };
  const of = figures(style);
  for (const name of ['zones', 'balance', 'extent', 'believable'] as const) {
    const row = of.table(name).rows.find((one) => one.name === 'shoulder');
    expect(row?.title, name).toBe('Shoulder');
  }
  expect(printed(style)).toContain('Shoulder');
  expect(printed()).not.toContain('Shoulder');
});

const rows = ZONE_COLUMNS.length;
afterEach(() => ZONE_COLUMNS.splice(rows));

it('a figure of a zone is a function and a row: tables and report have it', () => {
  const before = figures().table('zones').columns.length;
  ZONE_COLUMNS.push({
    key: 'doubled',
    head: 'Doubled',
    quantity: 'thickness',
    figure: ({ mean }) => (mean ? { valueMm: 2 * mean.valueMm, uMm: 2 * mean.uMm } : 'not read'),
  });
  const table = figures().table('zones');
  expect(table.columns).toHaveLength(before + 1);
  const [mean, doubled] = [0, before].map((k) => table.rows[0]!.figures[k]!);
  expect(doubled).toMatchObject({ id: 'zone.corners.doubled', quantity: 'thickness' });
  expect(doubled!.value).toBeCloseTo(2 * mean!.value!, 12);
  expect(doubled!.u).toBeCloseTo(2 * mean!.u!, 12);
  expect(printed()).toContain('Doubled');
});

const forms = SHEET_FORMS.length;
afterEach(() => SHEET_FORMS.splice(0, SHEET_FORMS.length - forms));

it('an import format is one more form: it is read, with the same questions and problems as any', async () => {
  const text = '# walks\nA 5.0 +0.5 43\nA 7.0 -0.5 45\nB 5.0 0 44';
  const file = { name: 'walks.txt', bytes: new TextEncoder().encode(text) };
  expect((await readCsv([file])).outcome).not.toBe('understood');
  SHEET_FORMS.unshift({
    isIn: ({ table }) => table[0]?.cells[0] === '# walks',
    read: ({ table }) => ({
      ...{ form: 'walks', blanks: 0, hasRepeats: false, headings: [], columns: {}, lacking: [] },
      ...{ unread: [], problems: [] },
      rows: table.slice(1).map(({ line, cells }) => {
        const [blade, along, across, thickness] = cells[0]!.split(' ');
        const cell = (words: string, column: string) => ({ text: words, line, column });
        return {
          line,
          cells: {
            blade: cell(blade!, 'blade'),
            from_tip_mm: cell(along!, 'along'),
            across: cell(across!, 'across'),
            thickness_mm: cell(thickness!, 'thickness'),
          },
          extra: {},
        };
      }),
    }),
  });
  expect(await readCsv([file])).toMatchObject({ outcome: 'asks', questions: [{ about: 'label' }] });
  const named = { ...file, answers: { label: 'W-1', unit: 'hundredths' as const } };
  const read = await readCsv([named]);
  if (read.outcome !== 'understood') throw new Error(read.outcome);
  const [draft] = read.reeds;
  expect(draft!.label).toBe('W-1');
  expect(draft!.passes[0]!.readings).toMatchObject([
    { blade: 'A', fromTipMm: 5, across: 0.5, thicknessMm: 0.43 },
    { blade: 'A', fromTipMm: 7, across: -0.5, thicknessMm: 0.45 },
    { blade: 'B', fromTipMm: 5, across: 0, thicknessMm: 0.44 },
  ]);
});

it('a place is an address and a row, and journeys go to each', () => {
  const addresses = readFileSync('components/frame/routes.ts', 'utf8');
  const plain = /const PLAIN = \[([^\]]*)\]/.exec(addresses)![1]!.match(/[a-z-]+/g)!;
  const visited = readFileSync('tests/journeys/every-place.ts', 'utf8');
  for (const place of plain) expect(visited, place).toContain(`plain('${place}'`);
});

it('a kind of document is a row in the union: it has words, and stands in the schema for others', () => {
  const kinds = documentSchema.options.map(({ shape }) => shape.kind.value);
  const schema = JSON.parse(readFileSync('shared/library.schema.json', 'utf8')) as {
    $defs: { document: { oneOf: { properties: { kind: { const: string } } }[] } };
  };
  expect(schema.$defs.document.oneOf.map(({ properties }) => properties.kind.const)).toEqual(kinds);
  const words = kinds.map((kind) => countedKind(kind, 2));
  expect(new Set(words).size).toBe(kinds.length);
  for (const said of words) expect(said).toMatch(/^2 [a-z]/);
});
