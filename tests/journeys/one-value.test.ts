import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { Page } from 'playwright-core';
import { unfolded } from './every-place.ts';
import { figuresOfPlaces, saidFigures } from './figures-of-places.ts';
import { openBench, type Bench } from './launch.ts';
import { contradictions, printedFigures, type Printed } from './printed-figures.ts';

const QUESTIONS = {
  there: 'bench-there-now bench-figures-table',
  taken: 'bench-taken-off .say',
  even: 'bench-even .say',
  beside: 'bench-beside .say',
  next: 'bench-next .say',
  sheet: 'bench-sheet bench-figures-table',
  notes: 'bench-notes h2',
};

type Reeds = readonly { readonly label: string; readonly passes: readonly number[] }[];

/** `npm run study:walk` walks all of it; the check of everything a part. */
const IS_WHOLE = process.env['WALK'] === 'all';
/** Figures with a name that a walk gathers at least. */
const LEAST_FIGURES = IS_WHOLE ? 600 : 150;

/** Looks at passes of reeds under every question, in notes, on paper, and at the lesson that sets each beside an example. */
async function walk(page: Page, ids: ReadonlyMap<string, string>, reeds: Reeds, example: string) {
  const figures: Printed[] = [];
  const look = async (hash: string, ready: string, label: string, pass: number, at: string) => {
    await unfolded(page, { name: hash, hash, ready });
    await page.waitForFunction(isAtRest);
    const where = `${label} ${pass} ${at}`;
    figures.push(...(await printedFigures(page, where)), ...(await saidFigures(page, where, label, pass)));
  };
  for (const { label, passes } of reeds) {
    const id = ids.get(label)!;
    for (const pass of passes)
      for (const [question, ready] of Object.entries(QUESTIONS))
        await look(`bench/${id}/${question}/${pass}`, ready, label, pass, question);
    const hash = `lesson/${ids.get(example)!}/${id}`;
    if (label !== example) await look(hash, 'bench-lesson-card svg', label, passes.at(-1)!, 'lesson');
  }
  return figures;
}

/** Runs in the page: nothing is being fitted, and nothing waits to be drawn. */
function isAtRest(): boolean {
  const refining = (root: Document | ShadowRoot): boolean =>
    [...root.querySelectorAll('*')].some(
      (element) => element.matches('.refining') || (element.shadowRoot && refining(element.shadowRoot)),
    );
  return !refining(document);
}

/** Identifiers of the reeds in the case, by their labels. */
async function idsOf(page: Page, wanted: string): Promise<ReadonlyMap<string, string>> {
  await page.getByRole('button', { name: wanted }).click();
  await page.evaluate(() => (location.hash = '#/find'));
  const links = page.locator('bench-find tbody th a');
  await links.first().waitFor();
  const found = await links.evaluateAll((all) =>
    all.map((link) => [link.textContent!.trim(), link.getAttribute('href')!.split('/')[2]!] as const),
  );
  return new Map(found.map(([label, id]) => [label.replace(/\u2011/g, '-'), id]));
}

const LIBRARIES = [
  ['the four invented reeds', 'Look at invented reeds'],
  ...(IS_WHOLE ? [['a working life of 300', 'or at a working life of 300 invented ones'] as const] : []),
] as const;

describe.each(LIBRARIES)('every screen of %s', (library, button) => {
  const isFew = library.includes('four');
  let bench: Bench;
  let figures: readonly Printed[];
  beforeAll(async () => {
    bench = await openBench({ viewport: { width: 1440, height: 900 } });
    const ids = await idsOf(bench.page, button);
    const reeds: Reeds = isFew
      ? [
          { label: 'M-142', passes: IS_WHOLE ? [0, 1, 2, 3] : [3] },
          ...(IS_WHOLE ? ['K-117', 'S-026', 'M-139'] : ['M-139']).map((label) => ({ label, passes: [0] })),
        ]
      : [...ids.keys()].filter((_, i) => i % 12 === 7).map((label) => ({ label, passes: [0] }));
    const seen = new Map(reeds.map(({ label }) => [label, ids.get(label)!] as const));
    figures = [
      ...(await walk(bench.page, ids, reeds, isFew ? 'K-117' : [...ids.keys()][0]!)),
      ...(await figuresOfPlaces(bench.page, seen)),
    ];
  }, 900_000);
  afterAll(() => bench.close());

  it('has no name with two values, nor with two doubts', () => {
    expect(figures.filter(({ name }) => name !== undefined).length).toBeGreaterThan(LEAST_FIGURES);
    expect(contradictions(figures)).toEqual([]);
  });

  it('has no number in a table of figures that does not stand in a record, but for what a plan works out', () => {
    const unnamed = figures.filter(({ name, where }) => name === undefined && !where.endsWith('next'));
    expect(unnamed).toEqual([]);
  });

  it('starts a clip from the zone means that stand under There now', () => {
    const means = new Map(
      figures.flatMap(({ where, row, head, value, doubt }) =>
        where.endsWith('there') && head === 'Mean'
          ? [[`${where.replace(/ there$/, '')} ${row}`, `${value} ±${doubt ?? ''}`] as const]
          : [],
      ),
    );
    const now = figures.filter(({ where, head }) => where.endsWith('next') && head === 'As it is');
    for (const { where, row, value, doubt } of now) {
      const mean = means.get(`${where.replace(/ next$/, '')} ${row}`);
      if (mean !== undefined)
        expect(`${where}, ${row}: ${value} ±${doubt ?? ''}`).toBe(`${where}, ${row}: ${mean}`);
    }
  });

  it('says nothing in the console', () => expect(bench.problems).toEqual([]));
});
